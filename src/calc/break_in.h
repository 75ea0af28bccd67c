// SPDX-License-Identifier: MIT
//
// Figure 7: the steps of a break-in recipe for one motor, as lengths, turns, cranks and torques,
// and the set that it leaves.
#pragma once

#include <string>

#include "base/diagnostic.h"
#include "plan/plan.h"
#include "records/planned.h"

namespace loopledger::calc {

/// Fills `planned.break_in` from loop, largest turns and torque. A step past "do not pass" is
/// refused: error `recipe-past-limit`, at the step, with the most that it may ask for; `stem` names
/// the motors (work_out tells it once, for the strictest piece). Torque in a recipe is a place to
/// stop, "turns or torque, whichever comes first", not a forecast.
[[nodiscard]] Diagnostics set_break_in(records::Planned& planned, const plan::Recipe& recipe,
                                       const std::string& stem);

/// From this stretch on a step gets a caution, `recipe-stretch`: the published practice is 6 times
/// [break-in], and rubber is near its end at 8 (common practice, no source).
inline constexpr double kFarStretch = 7;

/// Whether a step winds the motor, to turns or to a torque.
[[nodiscard]] bool winds(const records::BreakInStep& step);

/// Where a step's winding stops, with the 95 % interval of the largest torque that it is a share
/// of.
/// @pre step.stop_torque
[[nodiscard]] Estimate<Torque> stop_torque(const records::Planned& planned,
                                           const records::BreakInStep& step);

/// A step for the loop as it was tied, and the largest turns as they now are.
struct StepNow {
  records::BreakInStep step;
  bool held_back = false;  ///< its turns were cut down to "do not pass"
};
/// For the winder of another day: cranks of the steps' turns by `p.winder_ratio`. Rounded down.
void count_cranks(records::Planned& planned);

/// The planned step's stretch goes with the loop as tied, its turns with the largest turns; never
/// past the lower end of `largest`.
[[nodiscard]] StepNow step_now(const records::Planned& planned, const records::BreakInStep& step,
                               Length loop_as_tied, const Estimate<Turns>& largest);

// Lasting growth of a loop broken in well. Source: [set]: +3 % is good; +8 % at once and +3.5 % the
// next day were measured on another lot.
inline constexpr double kSetNextDay = 0.03;
inline constexpr double kSetAtOnce = 0.08;

/// The loop to expect the day after break-in, an estimate. Source: [set].
[[nodiscard]] Length broken_in_loop(Length as_tied);

}  // namespace loopledger::calc
