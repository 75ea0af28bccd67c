// SPDX-License-Identifier: MIT
#include "calc/fit.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "calc/squared.h"

namespace loopledger::calc {
namespace {

/// ln of the share of a standard normal above z, without underflow.
double log_share_above(double z) {
  constexpr double kFar = 30;
  if (z > kFar) {
    return -z * z / 2 - std::log(z * std::sqrt(2 * std::numbers::pi));
  }
  return std::log(std::erfc(z / std::numbers::sqrt2) / 2);
}

/// What is known before, and the data as far as they matter.
struct Knowledge {
  double prior_mu = 0;
  double prior_mu_sd = 0;
  double prior_log_spread = 0;
  double exact = 0;  ///< how many
  double exact_mean = 0;
  double exact_squares = 0;  ///< about the mean
  std::vector<double> at_least;

  /// Up to a constant.
  [[nodiscard]] double log_posterior(double mu, double log_spread) const {
    const double spread = std::exp(log_spread);
    double sum = -squared((mu - prior_mu) / prior_mu_sd) / 2 -
                 squared((log_spread - prior_log_spread) / kSpreadLogSd) / 2;
    sum -= exact * log_spread +
           (exact_squares + exact * squared(exact_mean - mu)) / (2 * squared(spread));
    for (const double bound : at_least) {
      sum += log_share_above((bound - mu) / spread);
    }
    return sum;
  }
};

Knowledge knowledge_of(const Factor<double>& prior, const std::vector<FitDatum>& data) {
  Knowledge k;
  k.prior_mu = std::log(prior.value);
  k.prior_mu_sd = prior.relative_u / std::numbers::sqrt2;
  // E[sigma^2] = exp(2 m + 2 sd^2) = u^2 / 2.
  k.prior_log_spread = std::log(prior.relative_u / std::numbers::sqrt2) - squared(kSpreadLogSd);
  for (const FitDatum& datum : data) {
    const double value = std::log(datum.factor);
    if (datum.at_least) {
      k.at_least.push_back(value);
    } else {
      k.exact += 1;
      const double before = value - k.exact_mean;
      k.exact_mean += before / k.exact;
      k.exact_squares += before * (value - k.exact_mean);
    }
  }
  return k;
}

/// A range of one of the two unknowns, cut into even steps.
struct Axis {
  double low = 0;
  double high = 0;
  int points = 0;
  [[nodiscard]] double step() const { return (high - low) / (points - 1); }
  [[nodiscard]] double at(int i) const { return low + step() * i; }
};

/// The posterior on a grid, summed up.
struct Summed {
  std::vector<double> mu_weights;  ///< over the axis of mu, adding up to 1
  double mu_mean = 0;
  double mu_sd = 0;
  double log_spread_mean = 0;
  double log_spread_sd = 0;
  double spread_squared = 0;  ///< E[sigma^2]
};

Summed sum_up(const Knowledge& k, const Axis& mu, const Axis& log_spread) {
  const auto mus = static_cast<std::size_t>(mu.points);
  const auto spreads = static_cast<std::size_t>(log_spread.points);
  std::vector<double> weight(mus * spreads);
  double most = -HUGE_VAL;
  for (std::size_t i = 0; i < mus; ++i) {
    for (std::size_t j = 0; j < spreads; ++j) {
      double& w = weight[i * spreads + j];
      w = k.log_posterior(mu.at(static_cast<int>(i)), log_spread.at(static_cast<int>(j)));
      most = std::max(most, w);
    }
  }
  Summed s;
  s.mu_weights.assign(mus, 0);
  double total = 0;
  double mu_2 = 0;
  double spread_2 = 0;
  for (std::size_t i = 0; i < mus; ++i) {
    const double m = mu.at(static_cast<int>(i)) - mu.low;
    for (std::size_t j = 0; j < spreads; ++j) {
      const double w = std::exp(weight[i * spreads + j] - most);
      const double t = log_spread.at(static_cast<int>(j)) - log_spread.low;
      total += w;
      s.mu_weights[i] += w;
      s.mu_mean += w * m;
      mu_2 += w * m * m;
      s.log_spread_mean += w * t;
      spread_2 += w * t * t;
      s.spread_squared += w * std::exp(2 * (t + log_spread.low));
    }
  }
  for (double& w : s.mu_weights) {
    w /= total;
  }
  s.mu_mean /= total;
  s.log_spread_mean /= total;
  s.mu_sd = std::sqrt(std::max(0.0, mu_2 / total - squared(s.mu_mean)));
  s.log_spread_sd = std::sqrt(std::max(0.0, spread_2 / total - squared(s.log_spread_mean)));
  s.mu_mean += mu.low;
  s.log_spread_mean += log_spread.low;
  s.spread_squared /= total;
  return s;
}

/// Drawn in on where the weight is, never to less than the steps can tell.
Axis drawn_in(const Axis& axis, double mean, double sd) {
  constexpr double kWide = 6;
  const double half = kWide * std::max(sd, axis.step());
  return {std::max(axis.low, mean - half), std::min(axis.high, mean + half), axis.points};
}

/// The value below which this share of the weights lies, each spread evenly over its step.
double quantile_of(const Axis& axis, const std::vector<double>& weights, double share) {
  double below = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    if (below + weights[i] >= share && weights[i] > 0) {
      const double into = (share - below) / weights[i] - 0.5;
      return axis.at(static_cast<int>(i)) + into * axis.step();
    }
    below += weights[i];
  }
  return axis.high;
}

/// How the motors at their limit look beside the prior.
void add_checks(LotFit& fit, const Factor<double>& prior, const Knowledge& k) {
  if (k.exact < 1) {
    return;
  }
  const double sd = prior.relative_u * std::sqrt((1 + 1 / k.exact) / 2);
  fit.prior_tail = 2 * normal_share_below(-std::fabs(k.exact_mean - k.prior_mu) / sd);
  constexpr double kFewest = 3;
  if (k.exact >= kFewest) {
    fit.seen_spread = std::sqrt(k.exact_squares / (k.exact - 1));
  }
}

}  // namespace

LotFit fit_lot(const Factor<double>& prior, const std::vector<FitDatum>& data,
               const FitGrid& grid) {
  const Knowledge k = knowledge_of(prior, data);
  constexpr double kFar = 7;  // standard deviations of the prior
  double low = k.prior_mu;
  double high = k.prior_mu;
  for (const FitDatum& datum : data) {
    low = std::min(low, std::log(datum.factor));
    high = std::max(high, std::log(datum.factor));
  }
  Axis mu{low - kFar * k.prior_mu_sd, high + kFar * k.prior_mu_sd, grid.middles};
  Axis log_spread{k.prior_log_spread - kFar * kSpreadLogSd,
                  k.prior_log_spread + kFar * kSpreadLogSd, grid.spreads};
  Summed s = sum_up(k, mu, log_spread);
  constexpr int kTimes = 3;
  for (int i = 0; i < kTimes; ++i) {
    mu = drawn_in(mu, s.mu_mean, s.mu_sd);
    log_spread = drawn_in(log_spread, s.log_spread_mean, s.log_spread_sd);
    s = sum_up(k, mu, log_spread);
  }
  LotFit fit;
  constexpr double kTail = 0.025;
  fit.middle = {std::exp(s.mu_mean), std::exp(quantile_of(mu, s.mu_weights, kTail)),
                std::exp(quantile_of(mu, s.mu_weights, 1 - kTail))};
  fit.motor_to_motor = std::sqrt(s.spread_squared);
  fit.next_u = std::sqrt(squared(s.mu_sd) + s.spread_squared);
  fit.next = log_normal(std::exp(s.mu_mean), fit.next_u);
  add_checks(fit, prior, k);
  return fit;
}

}  // namespace loopledger::calc
