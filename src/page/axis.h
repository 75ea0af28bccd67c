// SPDX-License-Identifier: MIT
//
// Round numbers for the axes of a drawn curve. Private to page/.
#pragma once

#include <string>
#include <vector>

namespace loopledger::page {

struct Tick {
  double value = 0;
  std::string text;
};

/// From 0 up to `top` at steps of 1, 2 or 5 times a power of ten, the finest that gives `most` of
/// them beside 0 or fewer. @pre top > 0, most > 0
[[nodiscard]] std::vector<Tick> ticks_to(double top, int most);

}  // namespace loopledger::page
