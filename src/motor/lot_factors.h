// SPDX-License-Identifier: MIT
//
// Both factors of a lot, worked out from its motors, and what they mean: the lines for the shelf,
// and what the lot does that was not expected.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "calc/fit.h"
#include "motor/lot_data.h"

namespace loopledger::motor {

struct LotFactors {
  std::string lot;
  LotData data;
  calc::Factor<double> turns_prior;
  calc::Factor<double> torque_prior;  ///< MPa
  std::string prior_from;             ///< "the defaults", or the strip of a plan
  calc::LotFit turns;
  calc::LotFit torque;  ///< MPa
};

/// Decimals that show a number with two figures of its uncertainty. @pre u > 0
[[nodiscard]] int decimals_of_uncertain(double u);

/// "10.6 ± 0.5", the uncertainty with two figures; with a unit, "0.52 MPa ± 0.08 MPa".
[[nodiscard]] std::string shelf_value(const calc::LotFit& fit, const std::string& unit);

/// The values for the shelf; empty without a motor that reached its limit (and, for the torque, had
/// one read).
[[nodiscard]] std::optional<std::string> shelf_turns(const LotFactors& lot);
[[nodiscard]] std::optional<std::string> shelf_torque(const LotFactors& lot);

/// The share of its largest turns that a motor of the lot is wound to.
[[nodiscard]] double wind_to_share(const LotFactors& lot);

/// So few motors at their limit that what was known before still leads.
[[nodiscard]] bool few_at_limit(const LotFactors& lot);

/// What the lot does that its figures did not expect, a paragraph each.
[[nodiscard]] std::vector<std::string> surprises(const LotFactors& lot);

}  // namespace loopledger::motor
