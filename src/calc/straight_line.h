// SPDX-License-Identifier: MIT
//
// A straight line with an intercept through measured points, by least squares, with the
// uncertainties of the line. Samples of strip should lie on a line through 0; this one tells when
// they don't. Sources: [gum-h3] for the formulas, [StRD] Norris.
#pragma once

#include <span>

namespace loopledger::calc {

struct StraightLine {
  double intercept = 0;  ///< at x = 0
  double slope = 0;
  double u_intercept = 0;
  double u_slope = 0;
  double correlation = 0;  ///< of intercept and slope
  double residual_sd = 0;  ///< with n - 2 degrees of freedom
  int degrees = 0;         ///< of freedom

  [[nodiscard]] double at(double x) const { return intercept + slope * x; }
  /// Standard uncertainty of at(x).
  [[nodiscard]] double u_at(double x) const;
};

/// @pre x.size() == y.size() >= 3, not all x the same
[[nodiscard]] StraightLine straight_line(std::span<const double> x, std::span<const double> y);

}  // namespace loopledger::calc
