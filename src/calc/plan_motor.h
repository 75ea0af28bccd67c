// SPDX-License-Identifier: MIT
//
// Figures 1 to 5, 7 and 8 for one motor group on strip of a given linear density: mass, loop,
// strip to cut, windows, turns, torque and break-in steps.
#pragma once

#include "base/result.h"
#include "plan/plan.h"
#include "records/planned.h"

namespace loopledger::calc {

/// Everything that is known of a motor of the group when it is cut from strip of this linear
/// density. What cannot be met comes back as errors that name the number in the way; a note or a
/// warning may come beside the figures.
[[nodiscard]] Result<records::Planned> plan_motor(const plan::Plan& plan,
                                                  const plan::MotorGroup& group,
                                                  const Uncertain<LinearDensity>& density);

}  // namespace loopledger::calc
