// SPDX-License-Identifier: MIT
#include "calc/turns_torque.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

namespace loopledger::calc {
namespace {

double turns_u(double u_k, double relative_u_lambda) {
  return std::hypot(u_k, relative_u_lambda / 2);
}

double torque_u(double u_k, double relative_u_lambda) {
  return std::hypot(u_k, 3 * relative_u_lambda / 2);
}

}  // namespace

double normal_quantile(double probability) {
  return boost::math::quantile(boost::math::normal(), probability);
}

double normal_share_below(double z) { return boost::math::cdf(boost::math::normal(), z); }

Estimate<Turns> largest_turns(Factor<double> k, Length loop, Area section,
                              double relative_u_lambda) {
  const Turns value = Turns::of(k.value * (loop / sqrt(section)));
  return log_normal(value, turns_u(k.relative_u, relative_u_lambda));
}

Estimate<Torque> largest_torque(Factor<Pressure> k, Area section, double relative_u_lambda) {
  const Torque value = Torque::si(k.value.in_si() * std::pow(section.in_si(), 1.5));
  return log_normal(value, torque_u(k.relative_u, relative_u_lambda));
}

Turns wind_to(const Estimate<Turns>& largest, Factor<double> k, double relative_u_lambda,
              bool fitted) {
  const double u = turns_u(k.relative_u, relative_u_lambda);
  const double share = fitted ? std::exp(normal_quantile(kFittedRisk) * u) : kWindToShare;
  return std::min(largest.value * share, most_to_wind(largest.low));
}

double breaking_risk(double share, double u) { return normal_share_below(std::log(share) / u); }

double breaking_risk_of_lot(double share, double k) {
  return breaking_risk(share * kTurnsFactor / k, kTurnsFactorU / std::sqrt(2.0));
}

}  // namespace loopledger::calc
