// SPDX-License-Identifier: MIT
#include "sheets/field_card_curve.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "page/axis.h"
#include "sheets/field_card_text.h"
#include "sheets/figures_text.h"

namespace loopledger::sheets {
namespace {

constexpr double kChartLeft = 11;   // for the numbers of the torque axis
constexpr double kChartRight = 15;  // for those of the other units
constexpr double kChartTop = 9.3;   // for units, and for what the lines are
constexpr double kChartBelow = 4.5;
constexpr int kChartMostTicks = 6;
constexpr int kChartPieces = 96;  // of the drawn curve: about 1 mm each
constexpr double kChartMark = 1.9;
constexpr double kChartPast = 1.08;  // of "do not pass": how far the turns go on at least
constexpr page::Style kChartAxis{.size_pt = 8};

class TorqueChart {
 public:
  TorqueChart(page::Canvas& canvas, const page::Box& frame, const motor::CardMotor& motor,
              Units units)
      : canvas_(canvas),
        motor_(motor),
        units_(units),
        plot_{.x = frame.x + kChartLeft,
              .y = frame.y + kChartTop,
              .w = frame.w - kChartLeft - kChartRight,
              .h = frame.h - kChartTop - kChartBelow,
              .line_width = 0.3} {
    most_turns_ = kChartPast * motor.largest.low;
    // An interval may reach far over the curve: that much of it is drawn.
    constexpr double kMostOfInterval = 2.2;
    most_torque_ = std::min(motor.expected.high, motor.expected.value * kMostOfInterval);
    for (const motor::CardPoint& p : motor.points) {
      most_turns_ = std::max(most_turns_, p.at.turns * 1.03);
      most_torque_ = std::max(most_torque_, p.at.torque);
    }
    most_torque_ = most_torque_ * 1.06;
  }

  void draw() {
    draw_past();
    draw_turns_axis();
    draw_torque_axis(units_, true);
    draw_torque_axis(other(units_), false);
    canvas_.box(plot_);
    draw_wind_to();
    draw_curve();
    for (const motor::CardPoint& p : motor_.points) {
      draw_mark(p);
    }
  }

 private:
  [[nodiscard]] double x_of(Turns turns) const { return plot_.x + plot_.w * (turns / most_turns_); }
  [[nodiscard]] double y_of(Torque torque) const {
    const double share = std::clamp(torque / most_torque_, 0.0, 1.0);
    return plot_.y + plot_.h * (1 - share);
  }

  void draw_past() {
    const double x = x_of(motor_.largest.low);
    canvas_.box({.x = x,
                 .y = plot_.y,
                 .w = plot_.x + plot_.w - x,
                 .h = plot_.h,
                 .line_width = 0,
                 .fill_grey = 0.85});
    canvas_.line(x, plot_.y - 4, x, plot_.y + plot_.h, 0.8);
    canvas_.text(x + 1.2, plot_.y - 2, "do not pass",
                 {.size_pt = 8, .face = page::Face::sheet_bold});
  }

  void draw_wind_to() {
    const double x = x_of(motor_.wind_to);
    canvas_.line(x, plot_.y - 4, x, plot_.y + plot_.h, 0.35);
    canvas_.text(x - 1.2, plot_.y - 2, "wind to",
                 {.size_pt = 8, .face = page::Face::sheet_bold, .align = page::Align::right});
    const Estimate<Torque>& there = motor_.expected;
    canvas_.line(x, y_of(there.low), x, y_of(there.high), 0.9);
    for (const Torque end : {there.low, there.high}) {
      if (end < most_torque_) {
        canvas_.line(x - 1.6, y_of(end), x + 1.6, y_of(end), 0.5);
      }
    }
  }

  void draw_turns_axis() {
    const double base = plot_.y + plot_.h;
    for (const page::Tick& tick : page::ticks_to(most_turns_.count(), kChartMostTicks)) {
      const double x = x_of(Turns::of(tick.value));
      if (tick.value > 0) {
        canvas_.line(x, plot_.y, x, base, 0.1, 0.6);
      }
      canvas_.line(x, base, x, base + 1, 0.3);
      canvas_.text(x, base + 1.6 + page::cap_height(kChartAxis.size_pt), tick.text,
                   {.size_pt = kChartAxis.size_pt, .align = page::Align::centre});
    }
    canvas_.text(plot_.x + plot_.w + kChartRight, base + 1.6 + page::cap_height(kChartAxis.size_pt),
                 "turns", {.size_pt = kChartAxis.size_pt, .align = page::Align::right});
  }

  void draw_torque_axis(Units units, bool leading) {
    const double one = torque_in(most_torque_, units);
    const double x = leading ? plot_.x : plot_.x + plot_.w;
    const double out = leading ? -1 : 1;
    const page::Style style{.size_pt = kChartAxis.size_pt,
                            .align = leading ? page::Align::right : page::Align::left};
    for (const page::Tick& tick : page::ticks_to(one, kChartMostTicks)) {
      const double y = plot_.y + plot_.h * (1 - tick.value / one);
      if (leading && tick.value > 0) {
        canvas_.line(plot_.x, y, plot_.x + plot_.w, y, 0.1, 0.6);
      }
      canvas_.line(x, y, x + out, y, 0.3);
      canvas_.text(x + 1.8 * out, y + page::cap_height(style.size_pt) / 2,
                   leading ? tick.text : fmt::format("({})", tick.text), style);
    }
    const std::string unit = leading ? "torque, " + torque_unit(units_)
                                     : fmt::format("({})", torque_unit(other(units_)));
    canvas_.text(
        leading ? plot_.x - kChartLeft : plot_.x + plot_.w + kChartRight,
        plot_.y - kChartTop + page::cap_height(kChartAxis.size_pt), unit,
        {.size_pt = kChartAxis.size_pt, .align = leading ? page::Align::left : page::Align::right});
  }

  void draw_curve() {
    std::vector<page::Polyline::Point> points;
    const Turns top = std::min(motor_.wind_to, motor_.curve->top_turns());
    for (int i = 0; i <= kChartPieces; ++i) {
      const Turns turns = top * (static_cast<double>(i) / kChartPieces);
      points.push_back({x_of(turns), y_of(motor_.curve->torque_at(turns))});
    }
    canvas_.polyline(std::move(points), 0.7);
  }

  void draw_mark(const motor::CardPoint& p) {
    canvas_.box({.x = x_of(p.at.turns) - kChartMark / 2,
                 .y = y_of(p.at.torque) - kChartMark / 2,
                 .w = kChartMark,
                 .h = kChartMark,
                 .line_width = 0.35,
                 .fill_grey = p.of_curve ? 0.0 : 1.0});
  }

  page::Canvas& canvas_;
  const motor::CardMotor& motor_;
  Units units_;
  page::Box plot_;
  Turns most_turns_;
  Torque most_torque_;
};

}  // namespace

void draw_torque_curve(page::Canvas& canvas, const page::Box& frame, const motor::CardMotor& motor,
                       Units units) {
  TorqueChart(canvas, frame, motor, units).draw();
}

}  // namespace loopledger::sheets
