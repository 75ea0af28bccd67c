// SPDX-License-Identifier: MIT
//
// A lot's fit as `fit` shows it, and the lines for the shelf.
#pragma once

#include <optional>
#include <string>

#include "calc/fit.h"
#include "json/json.h"
#include "motor/lot_data.h"

namespace loopledger::terminal {

/// Both factors of a lot, worked out.
struct LotFactors {
  std::string lot;
  motor::LotData data;
  calc::Factor<double> turns_prior;
  calc::Factor<double> torque_prior;  ///< MPa
  std::string prior_from;             ///< "the defaults", or the strip of a plan
  calc::LotFit turns;
  calc::LotFit torque;  ///< MPa
};

/// "10.6 ± 0.5", the uncertainty with two figures; with a unit, "0.52 MPa ± 0.08 MPa".
[[nodiscard]] std::string shelf_value(const calc::LotFit& fit, const std::string& unit);

/// The values for the shelf; empty without a motor that reached its limit (and, for the torque, had
/// one read).
[[nodiscard]] std::optional<std::string> shelf_turns(const LotFactors& lot);
[[nodiscard]] std::optional<std::string> shelf_torque(const LotFactors& lot);

[[nodiscard]] std::string fit_text(const LotFactors& lot);
[[nodiscard]] json::Json fit_json(const LotFactors& lot, const Diagnostics& diagnostics);

}  // namespace loopledger::terminal
