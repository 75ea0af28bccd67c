// SPDX-License-Identifier: MIT
//
// Figure 10: a lot's own factor, k_N of its turns or k_Q of its torque, from motors of it that were
// wound. In logarithms, as figures 4 and 5 have it: each motor of the lot has
//
//     ln k = mu + e,   e normal with standard deviation sigma,
//
// mu the lot's middle, sigma how much its motors differ. A motor that was wound until it broke or
// felt solid gives its k; one that was stopped says only "at least that", and so counts with the
// probability of being above: winding with caution does not pull the factor down.
//
// The prior is the default factor, or the shelf's, whose relative uncertainty u is that of a single
// motor. Half of u^2 is taken to be the lot's and half to be from motor to motor (common sense, no
// source; the published factors of [turns] A to D, each of other lots, differ by some 4 %):
//
//     mu ~ normal(ln k, u^2 / 2),   ln sigma ~ normal with sd 0.4 and E[sigma^2] = u^2 / 2,
//
// with the default's u wider here than for a motor of an unknown lot (kFitTurnsU): what is known
// before must not outweigh what was seen of a lot. So that without data the result is the prior.
// The posterior is summed over a grid of mu and ln sigma that is drawn in on it three times.
// Dropped: maximum likelihood (no answer for one motor, none for stopped ones alone), and a fixed
// sigma (four even motors would promise too little risk).
//
// What goes to the shelf is the NEXT motor's value and uncertainty, not the middle's: "wind to"
// takes its risk of breaking from it, and with the uncertainty of a mean half of all motors would
// be wound until they break once enough are known.
#pragma once

#include <optional>
#include <vector>

#include "base/quantity.h"
#include "calc/turns_torque.h"

namespace loopledger::calc {

/// One motor: the factor at which it reached its limit, or above which that limit is.
struct FitDatum {
  double factor = 0;      ///< > 0
  bool at_least = false;  ///< it was stopped: its limit is at this or above
};

struct LotFit {
  Estimate<double> middle;    ///< of the lot, with its 95 % interval
  double motor_to_motor = 0;  ///< relative standard deviation from motor to motor
  Estimate<double> next;      ///< a further motor of the lot, with its 95 % interval
  double next_u = 0;          ///< relative standard uncertainty of that: for the shelf
  /// Of lots drawn from the prior, the share whose motors at their limit have a middle as far off,
  /// or further: the prior's predictive check. Empty: no motor at its limit.
  std::optional<double> prior_tail;
  std::optional<double> seen_spread;  ///< their standard deviation, relative; empty: less than 3
};

/// Relative uncertainty that a fit of turns starts from. The lot's half of it, 10 %, makes 95 % of
/// lots 9.1 to 13.4: the published spread of good rubber is 9 to 13 [turns] A. Its motors' half
/// lets them differ by 4 to 19 %, so that "wind to" of a fitted lot keeps near its 2 % of broken
/// motors whatever the lot: simulated with three to twenty motors wound to their limit, at most 2.6
/// % of lots whose motors differ by 8 %, and 6 to 2 % of those with 12 %.
inline constexpr double kFitTurnsU = 0.14;

/// Below it, what a prior predicted is said to be contradicted. Common sense, no source.
inline constexpr double kContradicts = 0.05;

/// How finely the posterior is summed; the default is what the program uses.
struct FitGrid {
  int middles = 81;
  int spreads = 41;
};

/// The lot's factor from what is known before and these motors, in the prior's unit. Sources:
/// [turns], [torque] for the default priors.
/// @pre prior.value > 0, prior.relative_u > 0
[[nodiscard]] LotFit fit_lot(const Factor<double>& prior, const std::vector<FitDatum>& data,
                             const FitGrid& grid = {});

/// The spread that the prior puts in the middle of what it expects from motor to motor.
inline constexpr double kSpreadLogSd = 0.4;  // common sense, no source

}  // namespace loopledger::calc
