// SPDX-License-Identifier: MIT
#include "calc/rising_root.h"

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

namespace loopledger::calc {

double rising_root(const std::function<double(double)>& excess, double low, double high,
                   double scale) {
  const double at_low = excess(low);
  const double at_high = excess(high);
  if (!(at_low < 0) || !(at_high > 0)) {
    return at_low < 0 ? high : low;
  }
  constexpr double kSame = 1e-15;
  std::uintmax_t most = 200;  // evaluations; a dozen do
  const auto [from, to] = boost::math::tools::toms748_solve(
      excess, low, high, at_low, at_high,
      [scale](double a, double b) { return std::fabs(b - a) <= kSame * scale; }, most);
  return from + (to - from) / 2;
}

}  // namespace loopledger::calc
