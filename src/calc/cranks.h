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

/// Cranks never to pass: whole ones, none more than asked for. @pre ratio > 0
[[nodiscard]] inline double cranks_never_to_pass(Turns do_not_pass, double ratio) {
  return cranks_at_most(do_not_pass, ratio);
}

/// Cranks to wind to: whole ones, none more than asked for, and at least one under those never to
/// pass, so that the two are never told as the same number; not below 0. @pre ratio > 0
[[nodiscard]] inline double cranks_to_wind_to(Turns wind_to, Turns do_not_pass, double ratio) {
  return std::max(
      std::min(cranks_at_most(wind_to, ratio), cranks_never_to_pass(do_not_pass, ratio) - 1), 0.0);
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
