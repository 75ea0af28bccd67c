// SPDX-License-Identifier: MIT
//
// What a motor's field card says, as data: motor/card_motor.h makes it from the record,
// sheets/field_card.h sets it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/motor_id.h"
#include "base/terms.h"
#include "calc/ahead.h"
#include "calc/curve.h"

namespace loopledger::motor {

/// A torque that was read of the motor.
struct CardPoint {
  calc::TorquePoint at;
  bool of_curve = false;  ///< the curve was drawn through it
};

/// The last launch that was logged.
struct CardLaunch {
  Turns left;     ///< turns in at the launch
  Torque torque;  ///< at them, by the motor's curve: an estimate
  Turns let_out;  ///< from "wind to" for that torque
};

/// What a card says.
struct CardMotor {
  MotorId id;
  std::string state;     ///< "broken in"
  std::string mark;      ///< why its figures are not to be relied on; empty: they are
  bool retired = false;  ///< stands in the list alone, as not to be wound
  std::string purpose;
  std::string owner;
  std::string made_of;  ///< "2 strands of amber, lot …"
  Length loop;          ///< now
  LoopIs loop_is = LoopIs::planned;
  std::optional<Turns> best_turns;
  std::optional<Torque> best_torque;  ///< read at those
  int windings = 0;
  int full_winds = 0;
  int flights = 0;
  std::string last;  ///< date of its newest entry

  Turns wind_to;
  Estimate<Turns> largest;  ///< `low` is not to be passed
  double winder_ratio = 1;
  Estimate<Torque> expected;  ///< at "wind to"
  std::string expected_from;  ///< what that rests on, in words
  /// While unwinding, up to "wind to" or further; `expected.value` at it. Empty: no figures to draw
  /// it from.
  std::optional<calc::TorqueCurve> curve;
  std::string curve_is;  ///< whose shape it has, in words
  std::vector<CardPoint> points;
  std::optional<CardLaunch> launch;

  std::optional<calc::OilAgain> oil;  ///< empty: no lubricant in its plan
  std::optional<bool> oil_counts;     ///< under its rule; empty: it has none
  std::string before;                 ///< what is to be done before it is wound; may be empty
  std::vector<std::string> notes;     ///< what else is to be known then
};

}  // namespace loopledger::motor
