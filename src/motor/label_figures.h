// SPDX-License-Identifier: MIT
//
// What a bag label says, as data: made from a planned motor here, from the ledger by the commands
// that print labels again. sheets/labels.h sets it.
#pragma once

#include <optional>
#include <string>

#include "base/date.h"
#include "base/motor_id.h"
#include "base/quantity.h"
#include "calc/figures.h"
#include "tag/tag_text.h"

namespace loopledger::motor {

struct LabelFigures {
  MotorId id;
  tag::TagState state = tag::TagState::est;
  std::string purpose;
  std::string owner;
  int strands = 2;
  std::optional<Length> width;  ///< of the strip
  std::string lot;
  std::optional<Mass> mass;  ///< washed rubber as weighed; or else
  std::optional<Mass> low;   ///< what the scale may read of it washed
  std::optional<Mass> high;
  bool tails_on = false;  ///< with the tails, which are snipped later
  Mass scale_step = Mass::mg(1);
  std::optional<Length> loop;
  LoopIs loop_is = LoopIs::planned;
  /// Figures to wind by, from break-in. Empty: a blank for a pen.
  std::optional<Turns> turns;
  bool doubtful = false;        ///< not to be relied on: CHECK stands in the badge
  bool turns_are_best = false;  ///< wound already; else the turns to wind to
  std::optional<Torque> torque;
  /// Before break-in: the estimate that stands in small print.
  std::optional<Turns> turns_estimate;
  std::optional<Estimate<Turns>> turns_max;
  std::optional<Date> date;
  /// What the QR code says, unless the labels carry an address.
  tag::TagFigures tag;
};

/// The build night's label: EST, blanks for turns and torque, the tag with the estimate.
[[nodiscard]] LabelFigures label_figures(const calc::MotorFigures& motor);

}  // namespace loopledger::motor
