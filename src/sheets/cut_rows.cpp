// SPDX-License-Identifier: MIT
#include "sheets/cut_rows.h"

#include <fmt/format.h>

#include <array>
#include <string>

#include "base/text.h"
#include "calc/weigh.h"
#include "page/sheet_id.h"
#include "sheets/figures_text.h"

namespace loopledger::sheets {
namespace {

constexpr double kTick = 4;

// Shares of the width: motor, cut, as cut, washed, tied, finished, loop.
constexpr std::array kColumns{0.137, 0.116, 0.160, 0.166, 0.166, 0.166, 0.089};
constexpr std::size_t kMotor = 0;
constexpr std::size_t kCut = 1;
constexpr std::size_t kAsCut = 2;
constexpr std::size_t kWashed = 3;
constexpr std::size_t kTied = 4;
constexpr std::size_t kFinished = 5;
constexpr std::size_t kLoop = 6;

constexpr page::Style kFigure{
    .size_pt = 13, .face = page::Face::sheet_bold, .align = page::Align::centre, .smallest_pt = 11};
constexpr page::Style kSmall{.size_pt = 8, .align = page::Align::centre, .smallest_pt = 7.5};
constexpr double kFigureTop = 1.8;

class MotorRow {
 public:
  MotorRow(page::Sheet& sheet, const calc::MotorFigures& motor, Units units)
      : sheet_(sheet), canvas_(sheet.canvas()), motor_(motor), p_(motor.planned), units_(units) {}

  void draw() {
    const double y = sheet_.y();
    canvas_.box(
        {.x = sheet_.x(), .y = y, .w = sheet_.width(), .h = kMotorRowHeight, .line_width = 0.3});
    for (std::size_t i = 1; i < kColumns.size(); ++i) {
      canvas_.line(x_of(i), y, x_of(i), y + kMotorRowHeight, 0.15, 0.5);
    }
    draw_motor();
    draw_length(kCut, cut_length(p_.cut, units_), cut_length(p_.cut, other(units_)));
    canvas_.tick_box(x_of(kCut) + (w_of(kCut) - kTick) / 2, y + kMotorRowHeight - 2, kTick);
    draw_as_cut();
    draw_stage(kWashed, Stage::washed);
    draw_stage(kTied, Stage::tied);
    draw_stage(kFinished, Stage::finished);
    draw_length(kLoop, p_.loop, p_.loop);
    canvas_.blank(x_of(kLoop) + 1.5, y + kMotorRowHeight - 2, w_of(kLoop) - 3);
    sheet_.down(kMotorRowHeight);
  }

  [[nodiscard]] double x_of(std::size_t column) const {
    double x = sheet_.x();
    for (std::size_t i = 0; i < column; ++i) {
      x += kColumns[i] * sheet_.width();
    }
    return x;
  }
  [[nodiscard]] double w_of(std::size_t column) const { return kColumns[column] * sheet_.width(); }

 private:
  void draw_motor() {
    page::Style id = kFigure;
    id.size_pt = 14;
    id.smallest_pt = 9;
    const double x = x_of(kMotor) + 0.6;
    const double w = w_of(kMotor) - 1.2;
    page::draw_id(canvas_, {.x = x, .y = sheet_.y() + 0.6, .w = w, .h = 7.2}, motor_.id, id);
    page::Style piece = kSmall;
    piece.smallest_pt = 8;
    piece.max_lines = 2;
    if (!motor_.since.empty()) {
      page::Style moved_on = piece;
      moved_on.face = page::Face::sheet_bold;
      canvas_.fit(x, sheet_.y() + 8.8, w, upper_ascii(motor_.since), moved_on);
    } else if (!p_.piece.empty()) {
      canvas_.fit(x, sheet_.y() + 8.8, w, "piece " + p_.piece, piece);
    }
  }

  /// `in_other`: what stands below it in the other units.
  void draw_length(std::size_t column, Length length, Length in_other) {
    canvas_.fit(x_of(column) + 0.6, sheet_.y() + kFigureTop, w_of(column) - 1.2,
                number(length, units_), kFigure);
    canvas_.fit(x_of(column) + 0.4, sheet_.y() + 7.2, w_of(column) - 0.8,
                fmt::format("({})", shown(in_other, other(units_))), kSmall);
  }

  /// A small word and a figure, side by side in the middle of a column.
  void word_and_figure(std::size_t column, const std::string& word, const std::string& figure) {
    constexpr double kGap = 1;
    page::Style small = kSmall;
    small.align = page::Align::left;
    page::Style large = kFigure;
    large.align = page::Align::left;
    const double room = w_of(column) - 1.2 - canvas_.width_of(word, small) - kGap;
    const double wide = canvas_.width_of(figure, large);
    large.size_pt = std::min(large.size_pt, large.size_pt * room / wide);
    const double all = canvas_.width_of(word, small) + kGap + canvas_.width_of(figure, large);
    const double x = x_of(column) + (w_of(column) - all) / 2;
    const double y = sheet_.y() + kFigureTop + page::cap_height(kFigure.size_pt);
    canvas_.text(x, y, word, small);
    canvas_.text(x + all - canvas_.width_of(figure, large), y, figure, large);
  }

  void tick_and_blank(std::size_t column) {
    const double y = sheet_.y() + kMotorRowHeight - 2;
    canvas_.tick_box(x_of(column) + 1.2, y, kTick);
    canvas_.blank(x_of(column) + 1.2 + kTick + 1.2, y, w_of(column) - kTick - 3.8);
  }

  /// On one line, or each end on its own where the scale reads finer than the column is wide.
  void draw_window(std::size_t column, const std::string& low, const std::string& high) {
    const double x = x_of(column) + 0.6;
    const double w = w_of(column) - 1.2;
    page::Style smallest = kFigure;
    smallest.size_pt = smallest.smallest_pt;
    const std::string text = fmt::format("{}–{}", low, high);
    if (canvas_.width_of(text, smallest) <= w) {
      canvas_.fit(x, sheet_.y() + kFigureTop, w, text, kFigure);
      return;
    }
    canvas_.fit(x, sheet_.y() + 1.4, w, low + " –", smallest);
    canvas_.fit(x, sheet_.y() + 1.4 + page::line_height(smallest.size_pt), w, high, smallest);
  }

  void draw_stage(std::size_t column, Stage stage) {
    const records::Window window = calc::scale_window(p_, stage);
    if (!window.low && !window.high) {
      canvas_.fit(x_of(column) + 1, sheet_.y() + kFigureTop, w_of(column) - 2, "–", kFigure);
      return;
    }
    if (window.low && window.high) {
      draw_window(column, grams(*window.low, p_.scale_step), grams(*window.high, p_.scale_step));
    } else {
      word_and_figure(column, window.high ? "at most" : "at least",
                      grams(window.high ? *window.high : *window.low, p_.scale_step));
    }
    if (stage == Stage::washed && p_.tails > Length{}) {
      canvas_.fit(x_of(column) + 1, sheet_.y() + 7.2, w_of(column) - 2,
                  fmt::format("tails on, {}", milligrams(p_.linear_density.value * p_.tails)),
                  kSmall);
    }
    tick_and_blank(column);
  }

  void draw_as_cut() {
    if (p_.windows.of(Stage::as_cut).low) {
      word_and_figure(kAsCut, "at least", grams(*p_.windows.of(Stage::as_cut).low, p_.scale_step));
    }
    if (p_.windows.about) {
      canvas_.fit(x_of(kAsCut) + 1, sheet_.y() + 7.2, w_of(kAsCut) - 2,
                  "about " + grams(*p_.windows.about, p_.scale_step), kSmall);
    }
    tick_and_blank(kAsCut);
  }

  page::Sheet& sheet_;
  page::Canvas& canvas_;
  const calc::MotorFigures& motor_;
  const records::Planned& p_;
  Units units_;
};

}  // namespace

void draw_column_names(page::Sheet& sheet, Units units) {
  const std::array<std::string, kColumns.size()> names{
      "motor",       "cut, " + unit_name(units), "as cut, g", "washed and dry, g", "tied, g",
      "finished, g", "loop, " + unit_name(units)};
  const std::array<std::string, kColumns.size()> under{"",
                                                       "tick",
                                                       "tick, write reading",
                                                       "tick, write reading",
                                                       "tick, write reading",
                                                       "tick, write reading",
                                                       "as tied"};
  const double y = sheet.y();
  sheet.canvas().box({.x = sheet.x(),
                      .y = y,
                      .w = sheet.width(),
                      .h = kNamesRowHeight,
                      .line_width = 0.3,
                      .fill_grey = 0.9});
  double x = sheet.x();
  for (std::size_t i = 0; i < names.size(); ++i) {
    const double w = kColumns[i] * sheet.width();
    sheet.canvas().fit(x + 0.4, y + 1.2, w - 0.8, names[i],
                       {.size_pt = 9,
                        .face = page::Face::sheet_bold,
                        .align = page::Align::centre,
                        .smallest_pt = 8});
    sheet.canvas().fit(x + 0.4, y + 5.4, w - 0.8, under[i], kSmall);
    x += w;
  }
  sheet.down(kNamesRowHeight);
}

void draw_motor_row(page::Sheet& sheet, const calc::MotorFigures& motor, Units units) {
  MotorRow(sheet, motor, units).draw();
}

}  // namespace loopledger::sheets
