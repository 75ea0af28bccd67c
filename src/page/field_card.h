// SPDX-License-Identifier: MIT
//
// The field card: the sheet that a flyer takes to the flying floor, where there is no signal and
// light is poor. How far to wind, what the torque meter should read there, how far to back off, the
// torque curve, and blanks for the day. With several motors a list of the box comes first.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/motor_id.h"
#include "base/quantity_text.h"
#include "base/result.h"
#include "base/terms.h"
#include "calc/ahead.h"
#include "calc/curve.h"
#include "page/page.h"
#include "plan/stock.h"

namespace loopledger::page {

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

/// What a card says, made from a motor's record by the command.
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

struct CardRun {
  std::string title;
  std::string as_of;  ///< date of the newest entry on any card
  Units units = Units::metric;
  std::optional<Moment> created;
};

/// The list when there are several motors, then a card for each that is not retired, two on a page
/// where the paper is long enough. A bookmark for each. Error: `page-paper`; warnings of canvas.h.
[[nodiscard]] Result<Document> field_cards(const std::vector<CardMotor>& motors, const CardRun& run,
                                           const plan::Stock& paper, const FontMetrics& metrics);

}  // namespace loopledger::page
