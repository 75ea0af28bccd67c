// SPDX-License-Identifier: MIT
//
// The figures of a plan as `check` shows them: tables for the terminal.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "calc/figures.h"
#include "plan/plan.h"

namespace loopledger::terminal {

/// Tables that fit 100 columns. Motors that are alike share a row: "TH-01…06".
[[nodiscard]] std::string check_text(const plan::Plan& plan, const calc::Batch& batch, Units units);

/// Neighbours in the plan with the same figures, shown as one row.
struct CheckRow {
  std::string ids;  ///< "TH-01…06"
  const calc::MotorFigures* motor = nullptr;
};

/// The steps of break-in; empty when no motor has a recipe.
[[nodiscard]] std::string break_in_text(const std::vector<CheckRow>& rows, Units units);

/// What each strip would give for the plan's groups that have no size; empty when there are none.
[[nodiscard]] std::string choices_text(const plan::Plan& plan, const calc::Batch& batch,
                                       Units units);

/// "2.4 mm", "slit 1.8 mm", "-"; and a torque's number without its unit.
[[nodiscard]] std::string width_text(const records::Planned& planned, Units units);

}  // namespace loopledger::terminal
