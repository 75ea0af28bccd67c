// SPDX-License-Identifier: MIT
#include "calc/linear_density.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cassert>
#include <cmath>
#include <vector>

#include "calc/squared.h"
#include "calc/turns_torque.h"

namespace loopledger::calc {
namespace {

/// What scale and ruler allow, in SI: each sample's reading and zero carry the step (2 step^2/12),
/// both ends of the length the ruler's (2 ruler^2/12 = ruler^2/6); the scale's error is common to
/// all samples.
double instrument_u(std::span<const double> lengths, double lambda, const plan::Bench& bench) {
  double sum_l = 0;
  double sum_l2 = 0;
  for (const double l : lengths) {
    sum_l += l;
    sum_l2 += l * l;
  }
  const double step2 = squared(bench.scale_step.value.in_si());
  const double ruler2 = squared(bench.ruler_step.value.in_si());
  const double each = 2 * step2 / 12 + squared(lambda) * ruler2 / 6;
  const double independent = sum_l2 * each / squared(sum_l2);
  const double common = bench.scale_error.value.in_si() / std::sqrt(3.0) * sum_l / sum_l2;
  return std::sqrt(independent + squared(common));
}

Uncertain<LinearDensity> without_talc(double raw, double u, const Uncertain<Share>& talc) {
  const double stays = 1 - talc.value.as_ratio();
  const double u2 = squared(u * stays) + squared(raw * talc.u.as_ratio());
  return {LinearDensity::si(raw * stays), LinearDensity::si(std::sqrt(u2))};
}

}  // namespace

Slope slope_through_origin(std::span<const double> x, std::span<const double> y) {
  assert(x.size() == y.size() && !x.empty());
  double sum_xy = 0;
  double sum_x2 = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sum_xy += x[i] * y[i];
    sum_x2 += x[i] * x[i];
  }
  Slope slope{sum_xy / sum_x2, 0};
  if (x.size() < 2) {
    return slope;
  }
  double residuals2 = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    residuals2 += squared(y[i] - slope.value * x[i]);
  }
  slope.u = std::sqrt(residuals2 / static_cast<double>(x.size() - 1) / sum_x2);
  return slope;
}

Uncertain<LinearDensity> linear_density(const plan::Strip& strip, const plan::Bench& bench) {
  if (strip.samples.empty()) {
    const LinearDensity lambda = strip.width.value * strip.thickness.value * strip.density.value;
    return {lambda, lambda * kSectionUncertainty};
  }
  std::vector<double> lengths;
  std::vector<double> masses;
  for (const plan::Sample& sample : strip.samples) {
    lengths.push_back(sample.length.in_si());
    masses.push_back(sample.mass.in_si());
  }
  const Slope slope = slope_through_origin(lengths, masses);
  const double u = std::max(slope.u, instrument_u(lengths, slope.value, bench));
  if (strip.samples_washed.value) {
    return {LinearDensity::si(slope.value), LinearDensity::si(u)};
  }
  return without_talc(slope.value, u, strip.talc.value);
}

Uncertain<LinearDensity> piece_density(const plan::Piece& piece,
                                       const Uncertain<LinearDensity>& strip,
                                       const Uncertain<Share>& talc, const plan::Bench& bench) {
  if (!piece.length || !piece.mass) {
    return strip;
  }
  const double length = piece.length->in_si();
  const double raw = piece.mass->in_si() / length;
  return without_talc(raw, instrument_u(std::span(&length, 1), raw, bench), talc);
}

Length strip_half_width(const plan::Strip& strip, const plan::Bench& bench,
                        const Uncertain<LinearDensity>& density, Length length) {
  const double l = length.in_si();
  const double known = coverage_95() * l * density.u.in_si();
  if (strip.samples.size() < 2) {
    return Length::si(known / density.value.in_si());
  }
  std::vector<double> lengths;
  std::vector<double> masses;
  double sum_l2 = 0;
  for (const plan::Sample& sample : strip.samples) {
    lengths.push_back(sample.length.in_si());
    masses.push_back(sample.mass.in_si());
    sum_l2 += squared(lengths.back());
  }
  const double stays = strip.samples_washed.value ? 1 : 1 - strip.talc.value.value.as_ratio();
  const double slope_u = slope_through_origin(lengths, masses).u * stays;
  const boost::math::students_t student(static_cast<double>(lengths.size() - 1));
  const double t = boost::math::quantile(student, 0.975);
  double mass2 = squared(t * slope_u) * sum_l2;  // s^2, of the piece itself
  const Uncertain<LinearDensity> line = linear_density(strip, bench);
  if (density.value == line.value && density.u == line.u) {
    // What the samples' scatter leaves open of the line is in t; the rest is not.
    mass2 += squared(t * slope_u * l);
    mass2 += std::max(squared(known) - squared(coverage_95() * l * slope_u), 0.0);
  } else {
    mass2 += squared(known);
  }
  return Length::si(std::sqrt(mass2) / density.value.in_si());
}

Length piece_length(const plan::Piece& piece, const Uncertain<LinearDensity>& strip,
                    const Uncertain<Share>& talc) {
  if (piece.length) {
    return *piece.length;
  }
  return *piece.mass * (1 - talc.value.as_ratio()) / strip.value;
}

}  // namespace loopledger::calc
