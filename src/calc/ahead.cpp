// SPDX-License-Identifier: MIT
#include "calc/ahead.h"

#include <algorithm>
#include <cmath>

#include "calc/turns_torque.h"

namespace loopledger::calc {
namespace {

/// Of the torque at the largest turns.
double torque_share_at(Turns at, Turns largest) {
  return TorqueCurve::by_default(largest, Torque::si(1)).torque_at(at).in_si();
}

}  // namespace

Estimate<Torque> expected_torque(Turns at, const Estimate<Turns>& largest,
                                 const Estimate<Torque>& largest_torque) {
  const double share = torque_share_at(at, largest.value);
  const Torque value = largest_torque.value * share;
  const auto shift = [&](Turns n, Torque q) {
    const double of_turns = std::log(torque_share_at(at, n) / share);
    return std::hypot(of_turns, std::log(q / largest_torque.value));
  };
  if (value <= Torque{} || largest_torque.low <= Torque{}) {
    return {value, value, value};
  }
  return {value, value * std::exp(-shift(largest.high, largest_torque.low)),
          value * std::exp(shift(largest.low, largest_torque.high))};
}

Estimate<Torque> expected_torque(Turns at, const Estimate<Turns>& largest,
                                 const TorquePoint& read) {
  const auto with = [&](Turns n) {
    const double there = torque_share_at(read.turns, n);
    return there > 0 ? read.torque * (torque_share_at(at, n) / there) : read.torque;
  };
  const Torque value = with(largest.value);
  if (value <= Torque{}) {
    return {value, value, value};
  }
  const auto [lowest, highest] = std::minmax({value, with(largest.low), with(largest.high)});
  const double again = coverage_95() * kReadAgainU;
  return {value, value * std::exp(-std::hypot(std::log(lowest / value), again)),
          value * std::exp(std::hypot(std::log(highest / value), again))};
}

std::optional<OilAgain> oil_again(const records::Planned& p, Mass rubber,
                                  const std::optional<Judgement>& now) {
  if (p.lubricant.empty()) {
    return std::nullopt;
  }
  OilAgain oil;
  oil.adds = rubber * (p.uptake.value + p.uptake.u * coverage_95());
  if (p.rule && p.rule->counts.lubricant && now && now->margin) {
    oil.leaves = *now->margin - oil.adds;
  }
  return oil;
}

}  // namespace loopledger::calc
