// SPDX-License-Identifier: MIT
//
// Turns of the motor as turns of the winder's crank, as people count them: whole ones.
#pragma once

#include <algorithm>
#include <cmath>

#include "base/quantity.h"

namespace loopledger::calc {

/// Whether a turn of the crank is not a turn of the motor, so that cranks are told beside turns.
[[nodiscard]] inline bool has_cranks(double ratio) { return ratio > 0 && ratio != 1; }

/// For turns that are not to be passed: none more than asked for. @pre ratio > 0
[[nodiscard]] inline double cranks_at_most(Turns turns, double ratio) {
  return std::floor(turns.count() / ratio);
}

/// To wind to, never so many as the cranks never to pass: cranks_at_most() of both, and one less
/// where the two would be the same number. Not below 0. @pre ratio > 0
[[nodiscard]] inline double cranks_to_wind(Turns wind_to, Turns do_not_pass, double ratio) {
  return std::max(0.0, std::min(cranks_at_most(wind_to, ratio),
                                cranks_at_most(do_not_pass, ratio) - 1));
}

/// For turns to let out: the nearest, for there neither side is the safe one. @pre ratio > 0
[[nodiscard]] inline double nearest_cranks(Turns turns, double ratio) {
  return std::round(turns.count() / ratio);
}

/// What so many cranks wind. @pre ratio > 0
[[nodiscard]] inline Turns turns_of_cranks(double cranks, double ratio) {
  return Turns::of(cranks * ratio);
}

}  // namespace loopledger::calc
