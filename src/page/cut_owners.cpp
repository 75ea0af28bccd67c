// SPDX-License-Identifier: MIT
//
// The tables at the scale: for each owner every motor with its window at each stage, large, and a
// blank for what the scale read.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "page/cut_sections.h"
#include "page/figures_text.h"
#include "page/owners.h"
#include "tag/id.h"

namespace loopledger::page {
namespace {

constexpr double kMotorHeight = 16.5;
constexpr double kNamesHeight = 9;
constexpr double kTick = 4;

// Shares of the width: motor, cut, as cut, washed, tied, finished, loop.
constexpr std::array kColumns{0.132, 0.118, 0.160, 0.168, 0.168, 0.168, 0.086};
constexpr std::size_t kMotor = 0;
constexpr std::size_t kCut = 1;
constexpr std::size_t kAsCut = 2;
constexpr std::size_t kWashed = 3;
constexpr std::size_t kTied = 4;
constexpr std::size_t kFinished = 5;
constexpr std::size_t kLoop = 6;

constexpr Style kFigure{
    .size_pt = 13, .face = Face::sheet_bold, .align = Align::centre, .smallest_pt = 8};
constexpr Style kSmall{.size_pt = 8, .align = Align::centre, .smallest_pt = 5.5};

class OwnerTable {
 public:
  OwnerTable(Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch, const Owner& owner)
      : sheet_(sheet), plan_(plan), batch_(batch), owner_(owner) {
    for (const Kind& kind : kinds_of(plan, batch)) {
      Kind mine = kind;
      std::erase_if(mine.motors,
                    [&](std::size_t i) { return batch.motors[i].planned.owner != owner.name; });
      if (!mine.motors.empty()) {
        mine.planned = &batch.motors[mine.motors.front()].planned;
        kinds_.push_back(std::move(mine));
      }
    }
  }

  void draw() {
    const std::string name = owner_.shown();
    const std::string title = fmt::format("{}: {}", name, how_many(owner_.motors.size(), "motor"));
    sheet_.canvas().set_place("the table of " + name);
    sheet_.bookmark_next(name);
    // An owner's table is not split if a page of its own would hold it, unless that would leave
    // more than half a page empty.
    const double whole = 7 + 5.0 * static_cast<double>(kinds_.size()) + 24 + kNamesHeight +
                         kMotorHeight * static_cast<double>(owner_.motors.size());
    const double left = sheet_.bottom() - sheet_.y();
    const bool may_split = whole > sheet_.full_height() || left > sheet_.full_height() / 2;
    sheet_.heading(title, may_split ? 80 : whole);
    for (const Kind& kind : kinds_) {
      sheet_.item(id_list(batch_, kind.motors), about(kind));
    }
    draw_top();
    sheet_.repeat([this, title] {
      sheet_.canvas().fit(sheet_.x(), sheet_.y(), sheet_.width(), title + " (continued)",
                          {.size_pt = 10, .face = Face::sheet_bold, .smallest_pt = 7});
      sheet_.down(5.5);
      draw_top();
    });
    for (const std::size_t index : owner_.motors) {
      sheet_.room(kMotorHeight);
      draw_row(batch_.motors[index]);
    }
    sheet_.repeat(nullptr);
    sheet_.down(3);
  }

 private:
  /// What the motors of one kind are made of, in a line or two.
  [[nodiscard]] std::string about(const Kind& kind) const {
    const records::Planned& p = *kind.planned;
    std::string text = p.purpose.empty() ? "" : p.purpose + "; ";
    text += fmt::format("{} strands of {}", p.strands, p.strip);
    if (p.width) {
      text += fmt::format(", {}{}", p.slit ? "SLIT TO " : "", strip_width(*p.width, plan_.units));
    }
    text += fmt::format("; knot {}", shown(p.knot, plan_.units));
    if (p.tails > Length{}) {
      text += fmt::format(", tails {} snipped off after tying", shown(p.tails, plan_.units));
    }
    if (!p.ring.empty()) {
      text += fmt::format("; {} × ring {}", p.ring_count, p.ring);
    }
    if (p.part) {
      text += fmt::format("; part motor, {} of the full length", rounded(*p.part, 3));
      if (p.spacer && p.ballast) {
        text += fmt::format(", spacer {} of {}", shown(*p.spacer, plan_.units),
                            shown(*p.ballast, p.scale_step));
      }
    }
    if (!p.loop_given) {
      const Length u = p.cut_u * (kCoverage95 / p.strands);
      text += fmt::format(
          "; loop is an estimate, ± {} (95 %)",
          plan_.units == Units::inch ? fixed(u.in_in(), 2) + " in" : rounded(u.in_mm(), 2) + " mm");
    }
    return text + ".";
  }

  [[nodiscard]] double column_x(std::size_t column) const {
    double x = sheet_.x();
    for (std::size_t i = 0; i < column; ++i) {
      x += kColumns[i] * sheet_.width();
    }
    return x;
  }
  [[nodiscard]] double column_w(std::size_t column) const {
    return kColumns[column] * sheet_.width();
  }

  /// What stands above the rows on every page: how much to snip, and the table's head.
  void draw_top() {
    const Kind* last = nullptr;
    for (const Kind& kind : kinds_) {
      if (last == nullptr || !(last->planned->linear_density == kind.planned->linear_density)) {
        draw_trimming(sheet_, kind, plan_.units);
      }
      last = &kind;
    }
    const std::array<std::string, kColumns.size()> names{"motor",
                                                         "cut, " + unit_name(plan_.units),
                                                         "as cut, g",
                                                         "washed and dry, g",
                                                         "tied, g",
                                                         "finished, g",
                                                         "loop, " + unit_name(plan_.units)};
    const double y = sheet_.y();
    sheet_.canvas().box({.x = sheet_.x(),
                         .y = y,
                         .w = sheet_.width(),
                         .h = kNamesHeight,
                         .line_width = 0.3,
                         .fill_grey = 0.9});
    for (std::size_t i = 0; i < names.size(); ++i) {
      sheet_.canvas().fit(
          column_x(i) + 0.8, y + 1.2, column_w(i) - 1.6, names[i],
          {.size_pt = 8.5, .face = Face::sheet_bold, .align = Align::centre, .smallest_pt = 6});
      const std::string under = i == kCut                       ? "tick"
                                : i >= kAsCut && i <= kFinished ? "tick, write reading"
                                : i == kLoop                    ? "as tied"
                                                                : "";
      sheet_.canvas().fit(column_x(i) + 0.8, y + 5.4, column_w(i) - 1.6, under, kSmall);
    }
    sheet_.down(kNamesHeight);
  }

  void figure(std::size_t column, const std::string& text, double offset = 1.8) {
    sheet_.canvas().fit(column_x(column) + 1, sheet_.y() + offset, column_w(column) - 2, text,
                        kFigure);
  }

  void tick_and_blank(std::size_t column) {
    const double y = sheet_.y() + kMotorHeight - 2;
    sheet_.canvas().tick_box(column_x(column) + 1.2, y, kTick);
    sheet_.canvas().blank(column_x(column) + 1.2 + kTick + 1.2, y, column_w(column) - kTick - 3.8);
  }

  void draw_stage(std::size_t column, const records::Planned& p, Stage stage) {
    const records::Window& window = p.windows.of(stage);
    if (!window.low && !window.high) {
      figure(column, "–");
      return;
    }
    if (window.low && window.high) {
      figure(column, fmt::format("{}–{}", grams(*window.low, p.scale_step),
                                 grams(*window.high, p.scale_step)));
    } else {
      figure(column, window.high ? "at most " + grams(*window.high, p.scale_step)
                                 : "at least " + grams(*window.low, p.scale_step));
    }
    tick_and_blank(column);
  }

  void draw_as_cut(const records::Planned& p) {
    if (p.windows.of(Stage::as_cut).low) {
      sheet_.canvas().fit(
          column_x(kAsCut) + 1, sheet_.y() + 1.6, column_w(kAsCut) - 2,
          "at least " + grams(*p.windows.of(Stage::as_cut).low, p.scale_step),
          {.size_pt = 11, .face = Face::sheet_bold, .align = Align::centre, .smallest_pt = 7});
    }
    if (p.windows.about) {
      sheet_.canvas().fit(column_x(kAsCut) + 1, sheet_.y() + 6.2, column_w(kAsCut) - 2,
                          "about " + grams(*p.windows.about, p.scale_step), kSmall);
    }
    tick_and_blank(kAsCut);
  }

  void draw_row(const calc::MotorFigures& motor) {
    Canvas& canvas = sheet_.canvas();
    const records::Planned& p = motor.planned;
    const double y = sheet_.y();
    canvas.box(
        {.x = sheet_.x(), .y = y, .w = sheet_.width(), .h = kMotorHeight, .line_width = 0.3});
    for (std::size_t i = 1; i < kColumns.size(); ++i) {
      canvas.line(column_x(i), y, column_x(i), y + kMotorHeight, 0.15, 0.5);
    }
    Style id = kFigure;
    id.size_pt = 14;
    id.smallest_pt = 6;
    canvas.fit(column_x(kMotor) + 1, y + 1.6, column_w(kMotor) - 2, tag::with_check(motor.id), id);
    if (!motor.cut) {
      canvas.fit(column_x(kMotor) + 1, y + 8, column_w(kMotor) - 2, "no strip left", kSmall);
    } else if (!p.piece.empty()) {
      canvas.fit(column_x(kMotor) + 1, y + 8, column_w(kMotor) - 2, "piece " + p.piece, kSmall);
    }
    figure(kCut, number(p.cut, plan_.units));
    canvas.fit(column_x(kCut) + 1, y + 7.2, column_w(kCut) - 2,
               fmt::format("({})", shown(p.cut, other(plan_.units))), kSmall);
    canvas.tick_box(column_x(kCut) + (column_w(kCut) - kTick) / 2, y + kMotorHeight - 2, kTick);
    draw_as_cut(p);
    draw_stage(kWashed, p, Stage::washed);
    draw_stage(kTied, p, Stage::tied);
    draw_stage(kFinished, p, Stage::finished);
    figure(kLoop, number(p.loop, plan_.units));
    canvas.fit(column_x(kLoop) + 0.5, y + 7.2, column_w(kLoop) - 1,
               fmt::format("({})", shown(p.loop, other(plan_.units))), kSmall);
    canvas.blank(column_x(kLoop) + 1.5, y + kMotorHeight - 2, column_w(kLoop) - 3);
    sheet_.down(kMotorHeight);
  }

  Sheet& sheet_;
  const plan::Plan& plan_;
  const calc::Batch& batch_;
  const Owner& owner_;
  std::vector<Kind> kinds_;
};

}  // namespace

void draw_owners(Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  for (const Owner& owner : owners_of(batch)) {
    OwnerTable(sheet, plan, batch, owner).draw();
  }
}

}  // namespace loopledger::page
