// SPDX-License-Identifier: MIT
//
// Where a function that rises nearly in a straight line is 0.
#pragma once

#include <algorithm>
#include <cmath>

namespace loopledger::calc {

/// The root between `low` and `high`, by the secant's steps with the interval's halving as a
/// safeguard, to 1e-15 of `scale`; an end where the function does not change its sign.
/// @pre excess does not fall
template <class F>
[[nodiscard]] double rising_root(F&& excess, double low, double high, double scale) {
  double at_low = excess(low);
  double at_high = excess(high);
  if (at_low >= 0 || at_high <= 0) {
    return at_low >= 0 ? low : high;
  }
  double x = low - at_low * (high - low) / (at_high - at_low);
  for (int i = 0; i < 200; ++i) {
    const double at = excess(x);
    const double before = at < 0 ? low : high;
    const double at_before = at < 0 ? at_low : at_high;
    (at < 0 ? low : high) = x;
    (at < 0 ? at_low : at_high) = at;
    double next = x - at * (x - before) / (at - at_before);
    if (!(next > low && next < high)) {
      next = low + (high - low) / 2;
    }
    constexpr double kSame = 1e-15;
    if (std::fabs(next - x) <= kSame * scale || high - low <= kSame * scale) {
      return next;
    }
    x = next;
  }
  return x;
}

}  // namespace loopledger::calc
