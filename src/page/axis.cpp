// SPDX-License-Identifier: MIT
#include "page/axis.h"

#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"

namespace loopledger::page {
namespace {

constexpr double kOnTop = 1e-9;  // of the top: a tick this little above it is on it

struct Step {
  double size = 1;
  int decimals = 0;
};

Step step_for(double least) {
  const int power = static_cast<int>(std::floor(std::log10(least)));
  const double ten = std::pow(10.0, power);
  for (const double times : {1.0, 2.0, 5.0}) {
    if (times * ten >= least * (1 - kOnTop)) {
      return {times * ten, std::max(0, -power)};
    }
  }
  return {10 * ten, std::max(0, -power - 1)};
}

}  // namespace

std::vector<Tick> ticks_to(double top, int most) {
  const Step step = step_for(top / most);
  std::vector<Tick> ticks;
  for (int i = 0; i <= most && i * step.size <= top * (1 + kOnTop); ++i) {
    ticks.push_back({i * step.size, fixed(i * step.size, step.decimals)});
  }
  return ticks;
}

}  // namespace loopledger::page
