// SPDX-License-Identifier: MIT
//
// Figure 6 for one motor: its torque while it unwinds from a number of turns. The curve lies over
// the largest turns and the largest torque, whatever was wound: at the same turns rubber has much
// the same torque, whether a little more was wound before or not. What was read of the motor moves
// it, and in its best winding's reading it begins.
//
// How a reading at the top moves it. One that is lower than the curve there draws all of it down
// through itself: a motor that is weak where it was read is weak below. One that is higher is no
// sign of a stronger motor yet, since winding reads higher than unwinding: the default curve itself
// falls from 1 to 0.65 over the first 2.5 % of the largest turns that are let out. So a higher
// reading is joined to the curve by such a first drop, and only as far as that drop does not
// explain it is the whole curve drawn up. Thus a reading that is off by a factor moves no torque
// below it by more than that factor, one that was expected moves nothing, and at the largest turns
// the curve is the default's, drawn through the reading. The joining is common sense, no source;
// the curve and its first drop: [back-off].
#pragma once

#include <optional>

#include "base/quantity.h"
#include "calc/curve.h"
#include "calc/own_curve.h"

namespace loopledger::calc {

/// From `from` turns down to none. `top_read`: the best winding and the torque read there; where
/// `from` are not its turns it moves the curve, and the first drop is left out. `own`: the motor's
/// own points keep their turns; below and above them the default goes on from the nearest one. The
/// top of a winding that `own` was read in counts only from there: after more turns the first drop
/// comes higher up. Turns beyond the largest ones are taken to be the largest.
/// @pre from > 0, largest.value > 0, largest_torque.value > 0
[[nodiscard]] TorqueCurve unwinding_curve(const Estimate<Turns>& largest,
                                          const Estimate<Torque>& largest_torque, Turns from,
                                          const std::optional<TorquePoint>& top_read,
                                          const std::optional<OwnCurve>& own);

}  // namespace loopledger::calc
