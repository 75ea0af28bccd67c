// SPDX-License-Identifier: MIT
//
// The cutting plan in the terminal: what to cut from which piece, how good the plan is, what the
// shelf lists afterwards and how many more motors that would give.
#pragma once

#include <string>

#include "base/motor_id.h"
#include "base/quantity_text.h"
#include "calc/figures.h"
#include "json/json.h"
#include "plan/plan.h"

namespace loopledger::terminal {

/// "TH-01…06": motors that follow each other; a single one by its id alone.
[[nodiscard]] std::string ids_text(const MotorId& first, int last);

/// Tables that fit 100 columns, for `check`.
[[nodiscard]] std::string cutting_text(const plan::Plan& plan, const calc::Batch& batch,
                                       Units units);

/// The lines to put into the shelf once the night is cut, a strip's table head before each; empty
/// when nothing was cut. Lengths are rounded down to a tenth of a millimetre, masses to a tenth of
/// a milligram.
[[nodiscard]] std::string shelf_lines(const plan::Plan& plan, const calc::Batch& batch);

/// The same as `[{strip, pieces: [{tag, length_mm, mass_g}]}]`.
[[nodiscard]] json::Json shelf_json(const plan::Plan& plan, const calc::Batch& batch);

/// `[{motors, count}]`: further motors of each group that the shelf would give afterwards.
[[nodiscard]] json::Json more_json(const plan::Plan& plan, const calc::Batch& batch);

}  // namespace loopledger::terminal
