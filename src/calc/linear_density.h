// SPDX-License-Identifier: MIT
//
// Figure 1: the linear density of washed strip with its standard uncertainty, from samples or from
// the strip's dimensions.
#pragma once

#include <span>

#include "base/quantity.h"
#include "plan/plan.h"

namespace loopledger::calc {

/// Slope of a straight line through the origin with its standard uncertainty.
struct Slope {
  double value = 0;
  double u = 0;  ///< s / sqrt(sum x^2) with s^2 = sum(residual^2) / (n - 1); 0 for one point
};

/// Least squares through the origin: sum(x y) / sum(x^2). Source: [StRD] NoInt1, NoInt2.
/// @pre x.size() == y.size() >= 1, some x is not 0
[[nodiscard]] Slope slope_through_origin(std::span<const double> x, std::span<const double> y);

/// Relative standard uncertainty of a linear density from width x thickness x density.
inline constexpr double kSectionUncertainty = 0.05;  // common practice, no source

/// Linear density of washed strip. From samples: the larger of the fit's own uncertainty and what
/// scale and ruler allow, talc taken off when the samples were weighed with it; without samples
/// width x thickness x density at 5 %. Source: [gum] for the instruments' part.
/// @pre the strip has samples, or width and thickness
[[nodiscard]] Uncertain<LinearDensity> linear_density(const plan::Strip& strip,
                                                      const plan::Bench& bench);

/// Linear density of one piece that was both measured and weighed, talc on. Only a strip with a
/// piece like that needs it; a piece without one of the two has the strip's.
[[nodiscard]] Uncertain<LinearDensity> piece_density(const plan::Piece& piece,
                                                     const Uncertain<LinearDensity>& strip,
                                                     const Uncertain<Share>& talc,
                                                     const plan::Bench& bench);

/// Half of the 95 % interval of the strip that has the mass of so much of it: it scatters about the
/// samples' line as they do. Least squares through the origin takes each sample's scatter s as the
/// same at any length, so a further piece of length l has s^2 (1 + l^2 / sum(l_i^2)) in its mass,
/// with Student's t of the samples' degrees of freedom; what scale, ruler and talc leave open of
/// the linear density comes on top, in squares. Fewer than two samples: that alone. `density`: of
/// the strip, or of one of its pieces, whose own line it is then.
[[nodiscard]] Length strip_half_width(const plan::Strip& strip, const plan::Bench& bench,
                                      const Uncertain<LinearDensity>& density, Length length);

/// Length of a piece: as given, or its washed mass over the strip's linear density.
[[nodiscard]] Length piece_length(const plan::Piece& piece, const Uncertain<LinearDensity>& strip,
                                  const Uncertain<Share>& talc);

}  // namespace loopledger::calc
