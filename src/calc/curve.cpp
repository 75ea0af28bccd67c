// SPDX-License-Identifier: MIT
#include "calc/curve.h"

#include <math.h>  // Boost 1.74's pchip calls isnan without std::

#include <algorithm>
#include <array>
#include <boost/math/interpolators/pchip.hpp>
#include <boost/math/quadrature/gauss.hpp>

namespace loopledger::calc {
namespace {

constexpr std::array kTurnsShare{0.0,  0.05, 0.20, 0.50,  0.70,  0.80,
                                 0.85, 0.90, 0.95, 0.975, 0.998, 1.0};
constexpr std::array kTorqueShare{0.0,   0.080, 0.115, 0.145, 0.185, 0.250,
                                  0.340, 0.460, 0.585, 0.650, 0.800, 1.0};

using Interpolator = boost::math::interpolators::pchip<std::vector<double>>;

const Interpolator& interpolator() {
  static const Interpolator kCurve(std::vector<double>(kTurnsShare.begin(), kTurnsShare.end()),
                                   std::vector<double>(kTorqueShare.begin(), kTorqueShare.end()));
  return kCurve;
}

}  // namespace

Share DefaultCurve::torque_at(Share turns) {
  const double x = std::clamp(turns.as_ratio(), 0.0, 1.0);
  return Share::ratio(interpolator()(x));
}

Share DefaultCurve::turns_at(Share torque) {
  double low = 0;
  double high = 1;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (torque_at(Share::ratio(middle)) < torque ? low : high) = middle;
  }
  return Share::ratio((low + high) / 2);
}

double DefaultCurve::area(Share turns) {
  // A cubic between two knots is integrated exactly by a 7-point Gauss rule.
  const double end = std::clamp(turns.as_ratio(), 0.0, 1.0);
  double sum = 0;
  for (std::size_t i = 0; i + 1 < kTurnsShare.size() && kTurnsShare[i] < end; ++i) {
    const double to = std::min(end, kTurnsShare[i + 1]);
    sum += boost::math::quadrature::gauss<double, 7>::integrate(
        [](double x) { return interpolator()(x); }, kTurnsShare[i], to);
  }
  return sum;
}

const std::vector<CurvePoint>& DefaultCurve::points() {
  static const std::vector<CurvePoint> kPoints = [] {
    std::vector<CurvePoint> points;
    for (std::size_t i = 0; i < kTurnsShare.size(); ++i) {
      points.push_back({Share::ratio(kTurnsShare[i]), Share::ratio(kTorqueShare[i])});
    }
    return points;
  }();
  return kPoints;
}

Turns back_off(Turns wound, Torque top, Torque launch) {
  const Share left = DefaultCurve::turns_at(Share::ratio(launch / top));
  return Turns::of(wound.count() * (1 - left.as_ratio()));
}

Share energy_change(Temperature from, Temperature to) {
  return Share::ratio(kEnergyPerDegree * (to.in_deg_c() - from.in_deg_c()));
}

Energy stored_energy(Torque largest, Turns turns_max, Share share) {
  return work(largest, turns_max) * DefaultCurve::area(share);
}

}  // namespace loopledger::calc
