// SPDX-License-Identifier: MIT
//
// The cutting plan in the terminal: what to cut from which piece, how good the plan is, what the
// shelf lists afterwards and how many more motors that would give.
#pragma once

#include <string>

#include "base/quantity_text.h"
#include "calc/figures.h"
#include "plan/plan.h"

namespace loopledger::terminal {

/// Tables that fit 100 columns, for `check`.
[[nodiscard]] std::string cutting_text(const plan::Plan& plan, const calc::Batch& batch,
                                       Units units);

/// The lines to put into the shelf once the night is cut, a strip's table head before each; empty
/// when nothing was cut. Lengths are rounded down to a tenth of a millimetre, masses to a tenth of
/// a milligram.
[[nodiscard]] std::string shelf_lines(const plan::Plan& plan, const calc::Batch& batch);

}  // namespace loopledger::terminal
