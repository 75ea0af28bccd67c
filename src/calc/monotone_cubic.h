// SPDX-License-Identifier: MIT
//
// A smooth curve through points that only rise, which itself only rises: a piecewise cubic whose
// slopes keep it from overshooting. Torque curves, the default and a motor's own, are made of it.
#pragma once

#include <memory>
#include <vector>

namespace loopledger::calc {

class MonotoneCubic {
 public:
  /// @pre at least four points; x strictly rising; y not falling
  MonotoneCubic(std::vector<double> x, std::vector<double> y);

  /// Outside the points: the value at the nearest end.
  [[nodiscard]] double at(double x) const;
  /// The largest x at which the curve is not above y; outside the values: the nearest end.
  [[nodiscard]] double inverse(double y) const;
  /// The area under the curve from the first point to x, exact.
  [[nodiscard]] double area(double x) const;

  [[nodiscard]] const std::vector<double>& x() const { return x_; }
  [[nodiscard]] const std::vector<double>& y() const { return y_; }

 private:
  struct Cubic;  // the interpolation library's
  std::vector<double> x_;
  std::vector<double> y_;
  std::shared_ptr<const Cubic> cubic_;
};

}  // namespace loopledger::calc
