// SPDX-License-Identifier: MIT
#include "sheets/field_card_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "motor/crank_words.h"
#include "sheets/figures_text.h"

namespace loopledger::sheets {

std::string both_torques(Torque value, Units units) {
  return fmt::format("{} ({})", shown(value, units), shown(value, other(units)));
}

std::string torque_with_interval(const Estimate<Torque>& value, Units units) {
  const std::string low = torque_number(value.low, units);
  const std::string high = torque_number(value.high, units);
  const std::string middle = torque_number(value.value, units);
  return low == middle && high == middle ? middle : fmt::format("{} ({}–{})", middle, low, high);
}

std::string life_words(const motor::CardMotor& motor, Units units) {
  std::string out;
  if (motor.best_turns) {
    out = fmt::format("best {} turns", rounded(motor.best_turns->count(), 6));
    out += motor.best_torque ? " at " + both_torques(*motor.best_torque, units) + "; " : "; ";
  }
  if (motor.windings == 0) {
    out += "not wound yet";
  } else {
    out +=
        fmt::format("{} ({} full)", how_many(static_cast<std::size_t>(motor.windings), "winding"),
                    motor.full_winds);
  }
  if (motor.flights > 0) {
    out += ", " + how_many(static_cast<std::size_t>(motor.flights), "flight");
  }
  out += motor.last.empty() ? "" : ", last entry " + motor.last;
  return out + fmt::format("; loop {} {}; {}", both(motor.loop, units), spoken(motor.loop_is),
                           motor.made_of);
}

std::string curve_caption(const motor::CardMotor& motor) {
  std::string out = motor.curve_is + ". The bar on “wind to” is the estimate's 95 %.";
  if (motor.points.empty()) {
    return out;
  }
  const auto black = std::ranges::count(motor.points, true, &motor::CardPoint::of_curve);
  out += black > 0 ? " Squares: torques read, the black ones made the curve"
                   : " Squares: torques read";
  const bool others = black < static_cast<std::ptrdiff_t>(motor.points.size());
  return out + (others ? "; while winding they lie above it." : ".");
}

std::string oil_words(const motor::CardMotor& motor) {
  const calc::OilAgain& oil = *motor.oil;
  std::string out = fmt::format("Oiling it again today adds up to {:.0f} mg (95 %, estimate)",
                                std::ceil(oil.adds.in_mg()));
  if (!motor.oil_counts) {
    return out + ".";
  }
  if (!*motor.oil_counts) {
    return out + ", which its rule does not count.";
  }
  if (!oil.leaves) {
    return out + "; its rule counts that: weigh it.";
  }
  const double left = oil.leaves->in_mg();
  return out + (left >= 0 ? fmt::format("; its rule counts that: {:.0f} mg would be left under "
                                        "the limit.",
                                        std::floor(left))
                          : fmt::format("; its rule counts that: it may come out {:.0f} mg OVER "
                                        "the limit, so weigh it.",
                                        std::ceil(-left)));
}

std::string card_launch_words(const motor::CardMotor& motor, Units units) {
  const motor::CardLaunch& launch = *motor.launch;
  std::string out =
      fmt::format("Last launch: {} turns left in, about {} (estimate). ",
                  rounded(launch.left.count(), 6), both_torques(launch.torque, units));
  if (launch.let_out.count() < 1) {
    return out + "No less than “wind to” gives: let nothing out for it.";
  }
  out += fmt::format("For the same let out {:.0f} turns", launch.let_out.count());
  return out + motor::as_nearest_cranks(launch.let_out, motor.winder_ratio) + " from “wind to”.";
}

}  // namespace loopledger::sheets
