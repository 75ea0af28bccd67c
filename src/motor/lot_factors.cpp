// SPDX-License-Identifier: MIT
#include "motor/lot_factors.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"

namespace loopledger::motor {
namespace {

constexpr int kGoodNumber = 3;  // fewer motors at their limit: the prior still leads

bool any_at_limit(const std::vector<calc::FitDatum>& data) {
  return std::ranges::any_of(data, [](const calc::FitDatum& d) { return !d.at_least; });
}

}  // namespace

int decimals_of_uncertain(double u) {
  return std::clamp(1 - static_cast<int>(std::floor(std::log10(u))), 0, 6);
}

std::string shelf_value(const calc::LotFit& fit, const std::string& unit) {
  const double u = fit.next.value * fit.next_u;
  const int decimals = decimals_of_uncertain(u);
  const std::string behind = unit.empty() ? "" : " " + unit;
  return fmt::format("{}{} ± {}{}", fixed(fit.next.value, decimals), behind, fixed(u, decimals),
                     behind);
}

std::optional<std::string> shelf_turns(const LotFactors& lot) {
  return any_at_limit(lot.data.turns) ? std::optional(shelf_value(lot.turns, "")) : std::nullopt;
}

std::optional<std::string> shelf_torque(const LotFactors& lot) {
  return any_at_limit(lot.data.torque) ? std::optional(shelf_value(lot.torque, "MPa"))
                                       : std::nullopt;
}

double wind_to_share(const LotFactors& lot) {
  const bool known = any_at_limit(lot.data.turns);
  const calc::Factor<double> k =
      known ? calc::Factor<double>{lot.turns.next.value, lot.turns.next_u} : lot.turns_prior;
  // Of very many turns, for what is wound to is told in whole ones.
  const auto largest = calc::log_normal(Turns::of(1e6), k.relative_u);
  return calc::wind_to(largest, k, 0, known) / largest.value;
}

bool few_at_limit(const LotFactors& lot) { return lot.data.broke + lot.data.solid < kGoodNumber; }

std::vector<std::string> surprises(const LotFactors& lot) {
  std::vector<std::string> out;
  const auto against = [&](const char* name, const calc::LotFit& fit,
                           const calc::Factor<double>& prior) {
    if (fit.prior_tail && *fit.prior_tail < calc::kContradicts) {
      out.push_back(fmt::format(
          "Its motors contradict what was known before of {}, {} ± {:.0f} %: so far off comes "
          "{:.1f} times in 100. See that lot, loops and cranks are right; then wind more of them, "
          "and they decide.",
          name, rounded(prior.value, 4), prior.relative_u * 100, *fit.prior_tail * 100));
    }
  };
  against("k_N", lot.turns, lot.turns_prior);
  against("k_Q", lot.torque, lot.torque_prior);
  const auto& spread = lot.turns.seen_spread;
  if (spread && *spread > calc::kTurnsFactorU) {
    const double risk = calc::breaking_risk(
        calc::kWindToShare * calc::kTurnsFactor / lot.turns.middle.value, *spread);
    out.push_back(fmt::format(
        "Its motors differ by {:.0f} % in turns, more than the {:.0f} % that is expected: before "
        "it was fitted {:.1f} % of them broke at \"wind to\" (estimate). A fitted \"wind to\" "
        "rests on few motors then: of such lots up to 6 % break there with three at their limit, "
        "4 % with ten (simulated).",
        *spread * 100, calc::kTurnsFactorU * 100, risk * 100));
  }
  return out;
}

}  // namespace loopledger::motor
