// SPDX-License-Identifier: MIT
//
// Figure 7: the steps of a break-in recipe for one motor, as lengths, turns, cranks and torques.
#pragma once

#include "base/diagnostic.h"
#include "plan/plan.h"
#include "records/planned.h"

namespace loopledger::calc {

/// Fills `planned.break_in` from loop, largest turns and torque. A step past "do not pass" is
/// refused: error `recipe-past-limit`, at the step. Torque in a recipe is a place to stop, "turns
/// or torque, whichever comes first", not a forecast.
[[nodiscard]] Diagnostics set_break_in(records::Planned& planned, const plan::Recipe& recipe);

}  // namespace loopledger::calc
