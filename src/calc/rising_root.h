// SPDX-License-Identifier: MIT
//
// Where a rising function is 0.
#pragma once

#include <functional>

namespace loopledger::calc {

/// The root between `low` and `high`, to 1e-15 of `scale`; an end where the function does not
/// change its sign. @pre excess does not fall
[[nodiscard]] double rising_root(const std::function<double(double)>& excess, double low,
                                 double high, double scale);

}  // namespace loopledger::calc
