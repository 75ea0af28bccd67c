// SPDX-License-Identifier: MIT
//
// A word for the sums of squares of the uncertainties.
#pragma once

namespace loopledger::calc {

[[nodiscard]] constexpr double squared(double x) { return x * x; }

}  // namespace loopledger::calc
