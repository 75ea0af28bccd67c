// SPDX-License-Identifier: MIT
#include "calc/monotone_cubic.h"

#include <math.h>  // Boost 1.74's pchip calls isnan without std::

#include <algorithm>
#include <boost/math/interpolators/pchip.hpp>
#include <boost/math/quadrature/gauss.hpp>
#include <cassert>

namespace loopledger::calc {

struct MonotoneCubic::Cubic {
  boost::math::interpolators::pchip<std::vector<double>> curve;
};

MonotoneCubic::MonotoneCubic(std::vector<double> x, std::vector<double> y)
    : x_(std::move(x)), y_(std::move(y)) {
  assert(x_.size() >= 4 && x_.size() == y_.size());
  std::vector<double> xs = x_;
  std::vector<double> ys = y_;
  cubic_ = std::make_shared<const Cubic>(
      Cubic{boost::math::interpolators::pchip<std::vector<double>>(std::move(xs), std::move(ys))});
}

double MonotoneCubic::at(double x) const {
  return cubic_->curve(std::clamp(x, x_.front(), x_.back()));
}

double MonotoneCubic::inverse(double y) const {
  double low = x_.front();
  double high = x_.back();
  if (y >= y_.back()) {
    return high;
  }
  constexpr int kHalvings = 60;  // to the last bit of a double
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = low + (high - low) / 2;
    (at(middle) <= y ? low : high) = middle;
  }
  return low;
}

double MonotoneCubic::area(double x) const {
  // A cubic between two points is integrated exactly by a 7-point Gauss rule.
  const double end = std::clamp(x, x_.front(), x_.back());
  double sum = 0;
  for (std::size_t i = 0; i + 1 < x_.size() && x_[i] < end; ++i) {
    sum += boost::math::quadrature::gauss<double, 7>::integrate([this](double t) { return at(t); },
                                                                x_[i], std::min(end, x_[i + 1]));
  }
  return sum;
}

}  // namespace loopledger::calc
