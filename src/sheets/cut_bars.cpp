// SPDX-License-Identifier: MIT
//
// The cutting plan as bars: each piece from its clean end, where to cut, and what is left.
#include <fmt/format.h>

#include <algorithm>

#include "page/sheet_id.h"
#include "sheets/cut_sections.h"
#include "sheets/figures_text.h"

namespace loopledger::sheets {
namespace {

constexpr std::size_t kMostInRow = 8;  // more would leave no room for ids and numbers
constexpr double kNarrowestStretch = 16;
constexpr double kBarHeight = 8;
constexpr double kRowHeight = kBarHeight + 7;
constexpr page::Style kStretchId{
    .size_pt = 10, .face = page::Face::sheet_bold, .align = page::Align::centre, .smallest_pt = 9};
constexpr page::Style kPieceTitle{.size_pt = 10, .smallest_pt = 10, .max_lines = 6};
constexpr double kTitleBelow = 2.6;
constexpr double kPieceBelow = 2;

/// One stretch of a piece: a motor's strip, or the remnant.
struct Stretch {
  std::string name;  ///< of a remnant
  MotorId id{};
  Length from;
  Length to;
  bool remnant = false;
};

std::vector<Stretch> stretches_of(const calc::PieceCuts& cuts, const calc::Batch& batch,
                                  Units units) {
  std::vector<Stretch> all;
  Length at;
  const std::vector<Length> positions = cut_marks(cuts, batch, units);
  for (std::size_t i = 0; i < positions.size(); ++i) {
    all.push_back(
        {.name = {}, .id = batch.motors[cuts.motors[i]].id, .from = at, .to = positions[i]});
    at = positions[i];
  }
  if (cuts.left > Length::mm(0.5)) {
    // The number and its unit stay together when the words wrap.
    all.push_back({.name = fmt::format("{} {}\u00a0{}", cuts.scrap ? "scrap" : "keep",
                                       number(cuts.left, units), unit_name(units)),
                   .id = {},
                   .from = at,
                   .to = at + cuts.left,
                   .remnant = true});
  }
  return all;
}

void draw_stretch(page::Canvas& canvas, const Stretch& stretch, double x, double y, double w,
                  bool shaded, Units units) {
  canvas.box({.x = x,
              .y = y,
              .w = w,
              .h = kBarHeight,
              .line_width = 0.3,
              .fill_grey = stretch.remnant ? -1 : (shaded ? 0.86 : 0.95)});
  const page::Box in{.x = x + 0.5, .y = y, .w = w - 1, .h = kBarHeight};
  if (stretch.remnant) {
    page::Style name = kStretchId;
    name.smallest_pt = 8;
    name.max_lines = 2;
    canvas.fit_in(in, stretch.name, name);
  } else {
    page::draw_id(canvas, in, stretch.id, kStretchId);
  }
  if (!stretch.remnant) {
    canvas.line(x + w, y + kBarHeight, x + w, y + kBarHeight + 5, 0.5);
    canvas.text(x + w - 1, y + kBarHeight + 5, mark_number(stretch.to, units),
                {.size_pt = 11, .face = page::Face::sheet_bold, .align = page::Align::right});
  }
}

/// Widths of the stretches of one row: to scale, but none narrower than its words need.
std::vector<double> widths_of(std::span<const Stretch> row, double room, double narrowest) {
  std::vector<double> widths(row.size(), 0);
  std::vector<bool> fixed_width(row.size(), false);
  for (bool changed = true; changed;) {
    changed = false;
    double total = 0;
    double left = room;
    for (std::size_t i = 0; i < row.size(); ++i) {
      fixed_width[i] ? left -= narrowest : total += (row[i].to - row[i].from).in_mm();
    }
    for (std::size_t i = 0; i < row.size(); ++i) {
      widths[i] = fixed_width[i] ? narrowest : (row[i].to - row[i].from).in_mm() / total * left;
      if (!fixed_width[i] && widths[i] < narrowest - 1e-9) {
        fixed_width[i] = changed = true;
      }
    }
  }
  return widths;
}

double narrowest_of(page::Canvas& canvas, std::span<const Stretch> all) {
  double narrowest = kNarrowestStretch;
  for (const Stretch& stretch : all) {
    if (!stretch.remnant) {
      narrowest = std::max(narrowest, page::least_id_width(canvas, stretch.id, kStretchId) + 1.2);
    }
  }
  return narrowest;
}

void draw_bar_row(page::Sheet& sheet, std::span<const Stretch> row, double width, double narrowest,
                  Units units) {
  const std::vector<double> widths = widths_of(row, width, narrowest);
  double x = sheet.x();
  for (std::size_t i = 0; i < row.size(); ++i) {
    draw_stretch(sheet.canvas(), row[i], x, sheet.y(), widths[i], i % 2 == 0, units);
    x += widths[i];
  }
  sheet.down(kRowHeight);
}

void draw_piece(page::Sheet& sheet, const calc::PieceCuts& cuts, std::size_t order,
                const plan::Plan& plan, const calc::Batch& batch) {
  const std::vector<Stretch> all = stretches_of(cuts, batch, plan.units);
  page::Canvas& canvas = sheet.canvas();
  const double narrowest = narrowest_of(canvas, all);
  // One place is kept for the remnant, which stands behind the last cut whatever the row's count.
  const auto places = static_cast<std::size_t>(sheet.width() / narrowest);
  const std::size_t in_row = std::clamp<std::size_t>(places, 2, kMostInRow + 1) - 1;
  const std::size_t rows = std::max<std::size_t>(1, (cuts.motors.size() + in_row - 1) / in_row);
  const plan::Strip& strip = plan.strips[cuts.strip];
  const std::string name = fmt::format("piece {} of {}", strip.pieces[cuts.piece].tag, strip.name);
  std::string title = fmt::format("{}.  {}, {}", order, name, both(cuts.length, plan.units));
  if (cuts.ends > Length{}) {
    title += fmt::format("; first {} off for a clean end", shown(cuts.ends, plan.units));
  }
  const double title_height = canvas.height_of(sheet.width() - 6, title, kPieceTitle) + kTitleBelow;
  sheet.room(title_height + kRowHeight);
  canvas.tick_box(sheet.x(), sheet.y() + 4.2, 4);
  canvas.fit(sheet.x() + 6, sheet.y() + 0.6, sheet.width() - 6, title, kPieceTitle);
  sheet.down(title_height);
  for (std::size_t r = 0; r < rows; ++r) {
    if (sheet.room(kRowHeight) && r > 0) {
      sheet.paragraph(name + ", continued", {.size_pt = 10});
    }
    const std::size_t first = r * in_row;
    const std::size_t count = r + 1 == rows ? all.size() - first : in_row;
    const double share = static_cast<double>(count) / static_cast<double>(in_row);
    draw_bar_row(sheet, std::span(all).subspan(first, count),
                 sheet.width() * (rows == 1 ? 1.0 : std::min(1.0, share)), narrowest, plan.units);
  }
  sheet.down(kPieceBelow);
}

}  // namespace

void draw_cutting(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
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
  sheet.heading("Cut, in this order", kRowHeight + 22);
  sheet.paragraph(fmt::format("Numbers are positions in {} from the clean end: lay the piece along "
                              "the ruler, not stretched, and cut at each. {}",
                              plan.units == Units::inch ? "inches" : "millimetres",
                              proof_text(cutting, plan.units)),
                  {.size_pt = 9});
  std::size_t order = 0;
  for (const calc::PieceCuts& cuts : cutting.pieces) {
    draw_piece(sheet, cuts, ++order, plan, batch);
  }
  if (!cutting.uncut.empty()) {
    const std::string ids = id_list(batch, cutting.uncut);
    sheet.paragraph(cutting.motors_gap > 0
                        ? fmt::format("Not cut, no plan was found that cuts these too: {}.", ids)
                        : fmt::format("Not cut, the pieces are {} short: {}.",
                                      both(cutting.shortfall, plan.units), ids),
                    {.size_pt = 11, .face = page::Face::sheet_bold});
  }
}

}  // namespace loopledger::sheets
