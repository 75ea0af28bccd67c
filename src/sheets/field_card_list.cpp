// SPDX-License-Identifier: MIT
#include "sheets/field_card_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

#include "base/text.h"
#include "calc/cranks.h"
#include "motor/crank_words.h"
#include "sheets/field_card_text.h"
#include "sheets/figures_text.h"
#include "tag/id.h"

namespace loopledger::sheets {
namespace {

constexpr double kListRow = 8;
constexpr double kListHead = 8;
constexpr std::size_t kListColumns = 10;
/// Shares of the sheet's width.
constexpr std::array<double, kListColumns> kListShares{0.18,  0.13,  0.075, 0.085, 0.06,
                                                       0.115, 0.105, 0.085, 0.08,  0.085};
constexpr std::size_t kListWindTo = 6;

class BoxList {
 public:
  BoxList(page::Sheet& sheet, const std::vector<motor::CardMotor>& motors, Units units)
      : sheet_(sheet), motors_(motors), units_(units) {}

  void draw() {
    sheet_.canvas().set_place("the list of the box");
    sheet_.bookmark_next("Box list");
    sheet_.heading("In the box: " + how_many(motors_.size(), "motor"), kListHead + kListRow);
    draw_list_head();
    sheet_.repeat([this] { draw_list_head(); });
    for (const motor::CardMotor& motor : motors_) {
      sheet_.room(kListRow);
      draw_motor(motor);
      sheet_.down(kListRow);
      sheet_.canvas().line(sheet_.x(), sheet_.y(), sheet_.x() + sheet_.width(), sheet_.y(), 0.15);
    }
    sheet_.repeat(nullptr);
    sheet_.down(2);
    sheet_.paragraph(
        "Back off: turns to let out from “wind to” for the torque of its last launch, where one "
        "was logged; an estimate. Wound motors can burst or whip: eye protection.",
        {.size_pt = 8});
  }

 private:
  /// "cranks 10:1": the winder that they are of.
  [[nodiscard]] std::string cranks_name() const {
    const auto geared = std::ranges::find_if(motors_, [](const motor::CardMotor& motor) {
      return calc::has_cranks(motor.winder_ratio);
    });
    return motor::cranks_head(geared == motors_.end() ? 1 : geared->winder_ratio);
  }

  [[nodiscard]] double left_of(std::size_t column) const {
    double x = sheet_.x();
    for (std::size_t c = 0; c < column; ++c) {
      x += kListShares[c] * sheet_.width();
    }
    return x;
  }

  void cell(std::size_t column, double y, double h, const std::string& text,
            const page::Style& style, std::size_t columns = 1) {
    sheet_.canvas().fit_in({.x = left_of(column) + 0.6,
                            .y = y,
                            .w = left_of(column + columns) - left_of(column) - 1.8,
                            .h = h},
                           text, style);
  }

  void draw_list_head() {
    const std::array<std::string, kListColumns> names{"motor",      "loop, " + unit_name(units_),
                                                      "best turns", "at " + torque_unit(units_),
                                                      "full winds", "last entry",
                                                      "WIND TO",    cranks_name(),
                                                      "BACK OFF",   cranks_name()};
    for (std::size_t c = 0; c < kListColumns; ++c) {
      cell(c, sheet_.y(), kListHead - 1, names[c],
           {.size_pt = 8, .face = page::Face::sheet_bold, .smallest_pt = 6.5, .max_lines = 2});
    }
    sheet_.down(kListHead);
    sheet_.canvas().line(sheet_.x(), sheet_.y(), sheet_.x() + sheet_.width(), sheet_.y(), 0.4);
  }

  void draw_motor(const motor::CardMotor& motor) {
    constexpr double kUpper = 5.3;  // of a row: below it stands whose it is
    const double y = sheet_.y();
    const page::Style plain{.size_pt = 10, .smallest_pt = 6.5};
    cell(0, y, kUpper, tag::with_check(motor.id),
         {.size_pt = 13, .face = page::Face::sheet_bold, .smallest_pt = 8});
    cell(1, y, kUpper, number(motor.loop, units_) + " " + std::string(spoken(motor.loop_is)),
         plain);
    cell(2, y, kUpper, motor.best_turns ? rounded(motor.best_turns->count(), 6) : "–", plain);
    cell(3, y, kUpper, motor.best_torque ? torque_number(*motor.best_torque, units_) : "–", plain);
    cell(4, y, kUpper, std::to_string(motor.full_winds), plain);
    cell(5, y, kUpper, motor.last, plain);
    const std::string who = motor.owner.empty()     ? motor.purpose
                            : motor.purpose.empty() ? motor.owner
                                                    : motor.owner + ", for " + motor.purpose;
    if (!who.empty()) {
      cell(0, y + kUpper - 0.3, 2.6, who, {.size_pt = 7, .smallest_pt = 5}, kListWindTo);
    }
    draw_what_to_wind(motor, y);
  }

  void draw_what_to_wind(const motor::CardMotor& motor, double y) {
    const page::Style strong{.size_pt = 14, .face = page::Face::sheet_bold, .smallest_pt = 7};
    if (motor.retired || !motor.mark.empty()) {
      cell(kListWindTo, y, kListRow, motor.retired ? "retired: not to be wound" : motor.mark,
           {.size_pt = 10, .face = page::Face::sheet_bold, .smallest_pt = 6.5}, 4);
      return;
    }
    const auto cranks = [&motor](double count) {
      return calc::has_cranks(motor.winder_ratio) ? fixed(count, 0) : std::string("–");
    };
    cell(kListWindTo, y, kListRow, shown_at_most(motor.wind_to), strong);
    cell(kListWindTo + 1, y, kListRow,
         cranks(calc::cranks_to_wind_to(motor.wind_to, motor.largest.low, motor.winder_ratio)),
         strong);
    if (!motor.before.empty()) {
      cell(kListWindTo + 2, y, kListRow, "break in first",
           {.size_pt = 9, .face = page::Face::sheet_bold, .smallest_pt = 6.5}, 2);
      return;
    }
    const Turns out = motor.launch ? motor.launch->let_out : Turns{};
    cell(kListWindTo + 2, y, kListRow, motor.launch ? fixed(out.count(), 0) : "–", strong);
    cell(kListWindTo + 3, y, kListRow,
         motor.launch ? cranks(calc::nearest_cranks(out, motor.winder_ratio)) : "–", strong);
  }

  page::Sheet& sheet_;
  const std::vector<motor::CardMotor>& motors_;
  Units units_;
};

}  // namespace

void draw_box_list(page::Sheet& sheet, const std::vector<motor::CardMotor>& motors, Units units) {
  BoxList(sheet, motors, units).draw();
}

}  // namespace loopledger::sheets
