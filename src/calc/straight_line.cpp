// SPDX-License-Identifier: MIT
#include "calc/straight_line.h"

#include <cassert>
#include <cmath>
#include <numeric>

#include "calc/squared.h"

namespace loopledger::calc {
namespace {

double mean(std::span<const double> values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

}  // namespace

double StraightLine::u_at(double x) const {
  return std::sqrt(squared(u_intercept) + squared(x * u_slope) +
                   2 * x * u_intercept * u_slope * correlation);
}

StraightLine straight_line(std::span<const double> x, std::span<const double> y) {
  assert(x.size() == y.size() && x.size() >= 3);
  // About the means, so that nothing is lost where the points lie far from 0.
  const double mean_x = mean(x);
  const double mean_y = mean(y);
  const auto n = static_cast<double>(x.size());
  double sum_xx = 0;
  double sum_xy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sum_xx += squared(x[i] - mean_x);
    sum_xy += (x[i] - mean_x) * (y[i] - mean_y);
  }
  StraightLine line;
  line.slope = sum_xy / sum_xx;
  line.intercept = mean_y - line.slope * mean_x;
  double residuals2 = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    residuals2 += squared(y[i] - mean_y - line.slope * (x[i] - mean_x));
  }
  line.degrees = static_cast<int>(x.size()) - 2;
  line.residual_sd = std::sqrt(residuals2 / line.degrees);
  const double spread = std::sqrt(1 / n + squared(mean_x) / sum_xx);
  line.u_slope = line.residual_sd / std::sqrt(sum_xx);
  line.u_intercept = line.residual_sd * spread;
  line.correlation = -mean_x / std::sqrt(sum_xx) / spread;
  return line;
}

}  // namespace loopledger::calc
