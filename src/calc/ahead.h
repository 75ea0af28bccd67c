// SPDX-License-Identifier: MIT
//
// What is to be expected of a motor before it is wound: the torque at a number of turns, and what
// oiling it once more adds to its mass.
#pragma once

#include <optional>

#include "base/quantity.h"
#include "calc/curve.h"
#include "calc/weigh.h"
#include "records/planned.h"

namespace loopledger::calc {

/// Relative standard uncertainty of a torque that is read again on another day, with another meter
/// or hand: no interval of a torque is narrower. Common sense, no source.
inline constexpr double kReadAgainU = 0.10;

/// Torque at a number of turns of a motor of which no torque was read: the default curve up to its
/// largest turns and torque, with a 95 % interval. The ends of the two largest ones move it each by
/// itself, and the two shifts are added in squares of their logarithms; what they share through the
/// linear density is small beside them. The curve is that of unwinding: while winding more is read.
/// Sources: [turns], [torque], [back-off]. @pre largest.low > 0
[[nodiscard]] Estimate<Torque> expected_torque(Turns at, const Estimate<Turns>& largest,
                                               const Estimate<Torque>& largest_torque);

/// The same of a motor that read this torque once: the default curve up to its largest turns, drawn
/// through that point. The interval is what the largest turns leave open, and kReadAgainU.
/// @pre largest.low > 0, read.turns > 0
[[nodiscard]] Estimate<Torque> expected_torque(Turns at, const Estimate<Turns>& largest,
                                               const TorquePoint& read);

/// Fresh lubricant on a motor that may have some on it already.
struct OilAgain {
  Mass adds;                   ///< at most: the upper end of the uptake's 95 % interval
  std::optional<Mass> leaves;  ///< under the limit then, at least; negative: over. Empty: no rule
                               ///< counts it, or the motor was not weighed
};

/// `rubber`: its washed mass; `now`: how it was judged last. Nothing that was rubbed in before is
/// taken to be gone. Empty: the motor has no lubricant. Source: [lubricant].
[[nodiscard]] std::optional<OilAgain> oil_again(const records::Planned& planned, Mass rubber,
                                                const std::optional<Judgement>& now);

}  // namespace loopledger::calc
