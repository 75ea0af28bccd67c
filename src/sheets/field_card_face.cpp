// SPDX-License-Identifier: MIT
#include "sheets/field_card_face.h"

#include <fmt/format.h>

#include <algorithm>

#include "calc/cranks.h"
#include "motor/crank_words.h"
#include "sheets/field_card_curve.h"
#include "sheets/field_card_tables.h"
#include "sheets/field_card_text.h"
#include "sheets/figures_text.h"
#include "tag/id.h"

namespace loopledger::sheets {
namespace {

constexpr double kCardPad = 3;
constexpr double kLeastHead = 13;    // id, and whose it is
constexpr double kCardIdWidth = 66;  // with the room behind it
constexpr double kWindWidth = 64;    // how far to wind
constexpr double kCardGap = 4;
constexpr double kAboveFoot = 1.5;
constexpr double kWindWord = 4.5;  // "WIND TO"
/// The two numbers to wind by, at least and at most, and how high the turns are in them.
constexpr double kLeastNumbers = 24;
constexpr double kMostNumbers = 34;
constexpr double kTurnsShare = 0.46;
constexpr double kCranksShare = 0.32;
constexpr double kUnderNumber = 0.28;  // of its height

constexpr page::Style kCardSmall{.size_pt = 8, .smallest_pt = 6.5, .max_lines = 4};
constexpr page::Style kWho{
    .size_pt = 11, .face = page::Face::sheet_bold, .smallest_pt = 7.5, .max_lines = 4};
constexpr page::Style kNotPast{.size_pt = 13, .face = page::Face::sheet_bold, .smallest_pt = 8};
constexpr page::Style kExpect{.size_pt = 11, .face = page::Face::sheet_bold, .smallest_pt = 8};

constexpr const char* kCardCaution =
    "A wound motor can burst or whip: eye protection, faces clear. The event's rules and its "
    "officials decide.";

class CardFace {
 public:
  CardFace(page::Canvas& canvas, const page::Box& frame, const motor::CardMotor& motor, Units units)
      : canvas_(canvas),
        motor_(motor),
        units_(units),
        frame_(frame),
        x_(frame.x + kCardPad),
        y_(frame.y + kCardPad),
        w_(frame.w - 2 * kCardPad) {
    gather_foot();
  }

  [[nodiscard]] double least_height() {
    return 2 * kCardPad - 1 + head_height() + kWindWord + kLeastNumbers + words_height() + 2 +
           kCardTablesHeight + kAboveFoot + foot_height();
  }

  void draw() {
    canvas_.box({.x = frame_.x, .y = frame_.y, .w = frame_.w, .h = frame_.h, .line_width = 0.4});
    const double foot = frame_.y + frame_.h - kCardPad + 1 - foot_height();
    const double tables = foot - kAboveFoot - kCardTablesHeight;
    draw_head();
    const double under_head = y_ + head_height();
    draw_wind_to(under_head + 0.5, tables);
    draw_curve_room(under_head, tables);
    draw_card_tables(canvas_, x_, tables, w_, motor_, units_);
    double y = foot;
    for (const std::string& line : foot_) {
      y += canvas_.fit(x_, y, w_, line, foot_style(line));
    }
  }

 private:
  [[nodiscard]] bool cranked() const { return calc::has_cranks(motor_.winder_ratio); }

  void gather_foot() {
    if (!motor_.before.empty()) {
      foot_.push_back(motor_.before);
    }
    foot_.insert(foot_.end(), motor_.notes.begin(), motor_.notes.end());
    if (motor_.launch) {
      foot_.push_back(card_launch_words(motor_, units_));
    }
    if (motor_.oil) {
      foot_.push_back(oil_words(motor_));
    }
    foot_.emplace_back(kCardCaution);
  }

  [[nodiscard]] page::Style foot_style(const std::string& line) const {
    return {.size_pt = 8.5,
            .face = line == motor_.before ? page::Face::sheet_bold : page::Face::sheet,
            .smallest_pt = 7.5,
            .max_lines = 4};
  }

  [[nodiscard]] double foot_height() {
    double height = 0;
    for (const std::string& line : foot_) {
      height += canvas_.height_of(w_, line, foot_style(line));
    }
    return height;
  }

  [[nodiscard]] std::string who() const {
    std::string text = motor_.state;
    text += motor_.owner.empty() ? "" : " · " + motor_.owner;
    return motor_.purpose.empty() ? text : text + ", for " + motor_.purpose;
  }

  [[nodiscard]] double head_height() {
    const double w = w_ - kCardIdWidth;
    return std::max(kLeastHead, canvas_.height_of(w, who(), kWho) +
                                    canvas_.height_of(w, life_words(motor_, units_), kCardSmall) +
                                    1.5);
  }

  void draw_head() {
    canvas_.fit_in({.x = x_, .y = y_ - 0.5, .w = kCardIdWidth - 4, .h = 10},
                   tag::with_check(motor_.id),
                   {.size_pt = 32, .face = page::Face::sheet_bold, .smallest_pt = 12});
    const double x = x_ + kCardIdWidth;
    const double w = w_ - kCardIdWidth;
    const double y = y_ + canvas_.fit(x, y_, w, who(), kWho);
    canvas_.fit(x, y + 0.3, w, life_words(motor_, units_), kCardSmall);
    const double line = y_ + head_height() - 1;
    canvas_.line(x_, line, x_ + w_, line, 0.2);
  }

  /// A number as large as the room allows, and its unit behind it. Returns its height.
  double big(double y, double height, const std::string& number, const std::string& unit) {
    const double unit_width = std::max(16.0, canvas_.width_of(unit, {.size_pt = 12}) + 3);
    const page::FittedText fit = page::fit_text(number, kWindWidth - unit_width,
                                                {.face = page::Face::sheet_bold,
                                                 .size_pt = height / page::cap_height(1),
                                                 .smallest_pt = 10},
                                                canvas_.metrics());
    const double base = y + page::cap_height(fit.size_pt);
    const double w =
        canvas_.text(x_, base, number, {.size_pt = fit.size_pt, .face = page::Face::sheet_bold});
    canvas_.text(x_ + w + 2, base, unit, {.size_pt = 12});
    return base - y;
  }

  void draw_wind_to(double from, double to) {
    canvas_.text(x_, from + page::cap_height(10), "WIND TO",
                 {.size_pt = 10, .face = page::Face::sheet_bold});
    double y = from + kWindWord;
    if (!motor_.mark.empty()) {
      canvas_.fit(x_, y + 4, kWindWidth, motor_.mark, kNotPast);
      return;
    }
    const double room = std::min(to - y - words_height() - 1, kMostNumbers);
    const double turns = room * (cranked() ? kTurnsShare : kTurnsShare + 0.15);
    y += (1 + kUnderNumber) * big(y, turns, shown_at_most(motor_.wind_to), "turns");
    if (cranked()) {
      const double cranks =
          calc::cranks_to_wind_to(motor_.wind_to, motor_.largest.low, motor_.winder_ratio);
      y += (1 + kUnderNumber) *
           big(y, room * kCranksShare, fixed(cranks, 0), motor::cranks_head(motor_.winder_ratio));
    }
    y += canvas_.fit(x_, y, kWindWidth, do_not_pass(), kNotPast);
    y += canvas_.fit(x_, y, kWindWidth, may_break(), kCardSmall) + 0.8;
    if (motor_.curve) {
      y += canvas_.fit(x_, y, kWindWidth, expected(), kExpect);
      canvas_.fit(x_, y, kWindWidth, expected_from(), kCardSmall);
    }
  }

  /// What stands under the two numbers.
  [[nodiscard]] double words_height() {
    return canvas_.height_of(kWindWidth, do_not_pass(), kNotPast) +
           canvas_.height_of(kWindWidth, may_break(), kCardSmall) + 0.8 +
           canvas_.height_of(kWindWidth, expected(), kExpect) +
           canvas_.height_of(kWindWidth, expected_from(), kCardSmall);
  }

  [[nodiscard]] std::string do_not_pass() const {
    return "do not pass " + shown_at_most(motor_.largest.low) +
           motor::as_cranks_at_most(motor_.largest.low, motor_.winder_ratio);
  }
  [[nodiscard]] std::string may_break() const {
    return fmt::format("it may break from {} to {:.0f} turns (95 %, estimate)",
                       shown_at_most(motor_.largest.low), motor_.largest.high.count());
  }
  [[nodiscard]] std::string expected() const {
    return "expect " + both_torques(motor_.expected.value, units_);
  }
  [[nodiscard]] std::string expected_from() const {
    const std::string low = torque_number(motor_.expected.low, units_);
    const std::string high = torque_number(motor_.expected.high, units_);
    return (low == high ? "there, an estimate: "
                        : fmt::format("there, an estimate, 95 % {} to {}: ", low, high)) +
           motor_.expected_from;
  }

  void draw_curve_room(double from, double to) {
    const double x = x_ + kWindWidth + kCardGap;
    const double w = w_ - kWindWidth - kCardGap;
    if (!motor_.curve) {
      canvas_.fit(x, from + 4, w, "no torque curve: the figures as planned don't hold together",
                  kCardSmall);
      return;
    }
    const std::string caption = curve_caption(motor_);
    const double h = to - from - canvas_.height_of(w, caption, kCardSmall) - 2;
    draw_torque_curve(canvas_, {.x = x, .y = from, .w = w, .h = h}, motor_, units_);
    canvas_.fit(x, from + h + 0.5, w, caption, kCardSmall);
  }

  page::Canvas& canvas_;
  const motor::CardMotor& motor_;
  Units units_;
  page::Box frame_;
  double x_;
  double y_;
  double w_;
  std::vector<std::string> foot_;
};

}  // namespace

double least_card_height(page::Canvas& canvas, double width, const motor::CardMotor& motor,
                         Units units) {
  return CardFace(canvas, {.w = width}, motor, units).least_height();
}

void draw_card(page::Canvas& canvas, const page::Box& frame, const motor::CardMotor& motor,
               Units units) {
  CardFace(canvas, frame, motor, units).draw();
}

}  // namespace loopledger::sheets
