// SPDX-License-Identifier: MIT
//
// Figures 4 and 5: the largest turns and the largest torque a motor may stand, as estimates with
// their 95 % intervals, and from them the turns to wind to. These estimate where a motor breaks;
// they are never the number to wind to.
#pragma once

#include <algorithm>
#include <cmath>

#include "base/quantity.h"

namespace loopledger::calc {

// k_N in N = k_N L / sqrt(A). The published 10.64, 11.70, 11.27 and 11.32 average 11.2; good
// rubber spans 9 to 13. Source: [turns] A to D.
inline constexpr double kTurnsFactor = 11.0;
inline constexpr double kTurnsFactorU = 0.08;  ///< relative standard uncertainty
inline constexpr double kPoorTurnsFactor = 9;  ///< of a poor lot. Source: [turns] A

// k_Q in Q = k_Q A^1.5. Published: 0.703 MPa, and 0.32 to 0.60 MPa on thin loops. Source: [torque].
inline constexpr Pressure kTorqueFactor = Pressure::mpa(0.60);
inline constexpr double kTorqueFactorU = 0.25;  ///< relative standard uncertainty

/// Share of the estimated largest turns to wind to when the lot's own factor is not known: about
/// 0.3 % of motors break there, by the log-normal with 8 %. That is an average over lots: of a poor
/// one many more do, see breaking_risk_of_lot(). Source: [torque], last paragraph.
inline constexpr double kWindToShare = 0.80;
/// Risk of breaking that a fitted lot's "wind to" takes.
inline constexpr double kFittedRisk = 0.02;

/// A factor with its relative standard uncertainty.
template <class F>
struct Factor {
  F value{};
  double relative_u = 0;
};

/// Standard normal quantile and distribution; used for every factor k and probability here.
[[nodiscard]] double normal_quantile(double probability);
[[nodiscard]] double normal_share_below(double z);

/// Half-width of a 95 % interval in standard uncertainties: 1.96.
[[nodiscard]] inline double coverage_95() { return normal_quantile(0.975); }

/// An estimate with the 95 % interval of a log-normal whose relative standard uncertainty is u: the
/// value divided and multiplied by exp(1.96 u).
template <class Q>
[[nodiscard]] Estimate<Q> log_normal(Q value, double u) {
  const double spread = std::exp(coverage_95() * u);
  return {value, value / spread, value * spread};
}

/// A value with the interval of the estimate that it is a share of; none of one that is not known.
template <class Q>
[[nodiscard]] Estimate<Q> share_of(const Estimate<Q>& whole, Q value) {
  const double share = whole.value > Q{} ? value / whole.value : 0;
  return {value, whole.low * share, whole.high * share};
}

/// Largest turns with their 95 % log-normal interval. Relative variance u_k^2 + (u_lambda / (2
/// lambda))^2. Source: [turns].
/// @pre loop > 0, section > 0
[[nodiscard]] Estimate<Turns> largest_turns(Factor<double> k, Length loop, Area section,
                                            double relative_u_lambda);

/// Largest torque with its 95 % log-normal interval. Relative variance u_k^2 + (3 u_lambda / (2
/// lambda))^2. Source: [torque].
[[nodiscard]] Estimate<Torque> largest_torque(Factor<Pressure> k, Area section,
                                              double relative_u_lambda);

/// The most turns that anyone is told to wind to where these are not to be passed: in whole turns
/// one under them, so that the two are never told as the same number. Never below 0.
[[nodiscard]] inline Turns most_to_wind(Turns do_not_pass) {
  return std::max(whole_down(do_not_pass) - Turns::of(1), Turns{});
}

/// Turns to wind to: 0.80 of the estimate; for a fitted lot the share with a 2 % risk of breaking.
/// Never above most_to_wind() of the lower end of the interval ("do not pass").
[[nodiscard]] Turns wind_to(const Estimate<Turns>& largest, Factor<double> k,
                            double relative_u_lambda, bool fitted);

/// Share of motors that break when wound to `share` of the estimated largest turns, if the largest
/// turns are log-normal with the relative uncertainty u. Source: [torque], last paragraph.
[[nodiscard]] double breaking_risk(double share, double u);

/// The same of the motors of one lot whose own factor is k, which nobody knows: half of the
/// variance of 8 % is taken to be from motor to motor (as in calc/fit.h; common sense, no source).
[[nodiscard]] double breaking_risk_of_lot(double share, double k);

}  // namespace loopledger::calc
