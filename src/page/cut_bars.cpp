// SPDX-License-Identifier: MIT
//
// The cutting plan as bars: each piece from its clean end, where to cut, and what is left.
#include <fmt/format.h>

#include <algorithm>

#include "page/cut_sections.h"
#include "page/figures_text.h"

namespace loopledger::page {
namespace {

constexpr std::size_t kCutsInRow = 8;  // more would leave no room for ids and numbers
constexpr double kBarHeight = 8;
constexpr double kRowHeight = kBarHeight + 7;
constexpr double kTitleHeight = 6.5;

/// One stretch of a piece: a motor's strip, or the remnant.
struct Stretch {
  std::string name;
  Length from;
  Length to;
  bool remnant = false;
};

std::vector<Stretch> stretches_of(const calc::PieceCuts& cuts, const calc::Batch& batch,
                                  Units units) {
  std::vector<Stretch> all;
  Length at;
  for (const std::size_t index : cuts.motors) {
    const calc::MotorFigures& motor = batch.motors[index];
    all.push_back({.name = printed(motor.id), .from = at, .to = at + motor.planned.cut});
    at += motor.planned.cut;
  }
  if (cuts.left > Length::mm(0.5)) {
    // The number and its unit stay together when the words wrap.
    all.push_back({.name = fmt::format("{} {}\u00a0{}", cuts.scrap ? "scrap" : "keep",
                                       number(cuts.left, units), unit_name(units)),
                   .from = at,
                   .to = at + cuts.left,
                   .remnant = true});
  }
  return all;
}

void draw_stretch(Canvas& canvas, const Stretch& stretch, double x, double y, double w, bool shaded,
                  Units units) {
  canvas.box({.x = x,
              .y = y,
              .w = w,
              .h = kBarHeight,
              .line_width = 0.3,
              .fill_grey = stretch.remnant ? -1 : (shaded ? 0.86 : 0.95)});
  const Style name{.size_pt = 10,
                   .face = Face::sheet_bold,
                   .align = Align::centre,
                   .smallest_pt = stretch.remnant ? 7.5 : 5.5,  // ids don't break, they shrink

                   .max_lines = 2};
  canvas.fit_in({.x = x + 0.5, .y = y, .w = w - 1, .h = kBarHeight}, stretch.name, name);
  if (!stretch.remnant) {
    canvas.line(x + w, y + kBarHeight, x + w, y + kBarHeight + 5, 0.5);
    canvas.text(x + w - 1, y + kBarHeight + 5, number(stretch.to, units),
                {.size_pt = 11, .face = Face::sheet_bold, .align = Align::right});
  }
}

/// Widths of the stretches of one row: to scale, but none narrower than its number needs.
std::vector<double> widths_of(std::span<const Stretch> row, double room) {
  constexpr double kNarrowest = 15;
  std::vector<double> widths(row.size(), 0);
  std::vector<bool> fixed_width(row.size(), false);
  for (bool changed = true; changed;) {
    changed = false;
    double total = 0;
    double left = room;
    for (std::size_t i = 0; i < row.size(); ++i) {
      fixed_width[i] ? left -= kNarrowest : total += (row[i].to - row[i].from).in_mm();
    }
    for (std::size_t i = 0; i < row.size(); ++i) {
      widths[i] = fixed_width[i] ? kNarrowest : (row[i].to - row[i].from).in_mm() / total * left;
      if (!fixed_width[i] && widths[i] < kNarrowest - 1e-9) {
        fixed_width[i] = changed = true;
      }
    }
  }
  return widths;
}

void draw_piece(Sheet& sheet, const calc::PieceCuts& cuts, std::size_t order,
                const plan::Plan& plan, const calc::Batch& batch) {
  const std::vector<Stretch> all = stretches_of(cuts, batch, plan.units);
  const std::size_t rows =
      std::max<std::size_t>(1, (cuts.motors.size() + kCutsInRow - 1) / kCutsInRow);
  sheet.room(kTitleHeight + kRowHeight);
  const plan::Strip& strip = plan.strips[cuts.strip];
  std::string title = fmt::format("{}.  piece {} of {}, {}", order, strip.pieces[cuts.piece].tag,
                                  strip.name, both(cuts.length, plan.units));
  if (cuts.ends > Length{}) {
    title += fmt::format("; first {} off for a clean end", shown(cuts.ends, plan.units));
  }
  sheet.canvas().tick_box(sheet.x(), sheet.y() + 4.2, 4);
  sheet.canvas().fit(sheet.x() + 6, sheet.y() + 0.6, sheet.width() - 6, title, {.size_pt = 10});
  sheet.down(kTitleHeight);
  for (std::size_t r = 0; r < rows; ++r) {
    // The remnant stands behind the last cut, whatever the row's count.
    const std::size_t first = r * kCutsInRow;
    const std::size_t count = r + 1 == rows ? all.size() - first : kCutsInRow;
    const auto row = std::span(all).subspan(first, count);
    const double room_width =
        sheet.width() *
        (rows == 1 ? 1.0
                   : std::min(1.0, static_cast<double>(count) / static_cast<double>(kCutsInRow)));
    sheet.room(kRowHeight);
    const std::vector<double> widths = widths_of(row, room_width);
    double x = sheet.x();
    for (std::size_t i = 0; i < row.size(); ++i) {
      draw_stretch(sheet.canvas(), row[i], x, sheet.y(), widths[i], i % 2 == 0, plan.units);
      x += widths[i];
    }
    sheet.down(kRowHeight);
  }
}

std::string verdict(const calc::CuttingPlan& cutting, Units units) {
  if (cutting.proven) {
    return "No plan leaves less scrap (proven).";
  }
  if (cutting.gap < Length::mm(0.5)) {
    return "No plan leaves less scrap; whether one touches fewer pieces is not proven.";
  }
  return fmt::format("Not proven the best: scrap may be {} more than the least possible.",
                     both(cutting.gap, units));
}

}  // namespace

void draw_cutting(Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  sheet.canvas().set_place("the cutting plan");
  const calc::CuttingPlan& cutting = batch.cutting;
  if (!cutting.made) {
    sheet.heading("Cut", 6);
    sheet.paragraph(
        "The plan lists no pieces of strip, so there is no cutting plan: cut the "
        "lengths of the tables that follow, longest first.",
        {.size_pt = 9});
    return;
  }
  sheet.bookmark_next("Cutting plan");
  sheet.heading("Cut, in this order", kTitleHeight + kRowHeight + 6);
  sheet.paragraph(fmt::format("Numbers are positions in {} from the clean end: lay the piece along "
                              "the ruler, not stretched, and cut at each. {}",
                              plan.units == Units::inch ? "inches" : "millimetres",
                              verdict(cutting, plan.units)),
                  {.size_pt = 8.5});
  std::size_t order = 0;
  for (const calc::PieceCuts& cuts : cutting.pieces) {
    draw_piece(sheet, cuts, ++order, plan, batch);
  }
  if (!cutting.uncut.empty()) {
    sheet.paragraph(fmt::format("Not cut, the pieces are {} short: {}.",
                                both(cutting.shortfall, plan.units), id_list(batch, cutting.uncut)),
                    {.size_pt = 11, .face = Face::sheet_bold});
  }
}

}  // namespace loopledger::page
