// SPDX-License-Identifier: MIT
#include "calc/ahead.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "calc/turns_torque.h"

using namespace loopledger;
using doctest::Approx;

namespace {

Estimate<Turns> turns_about(double n) {
  return calc::log_normal(Turns::of(n), calc::kTurnsFactorU);
}
Estimate<Torque> torque_about(double gf_cm) {
  return calc::log_normal(Torque::gf_cm(gf_cm), calc::kTorqueFactorU);
}
template <class Q>
Estimate<Q> surely(Q value) {
  return {value, value, value};
}

}  // namespace

TEST_CASE("with no torque read the one at wind to is the default curve's, a quarter at 0.8") {
  const auto torque =
      calc::expected_torque(Turns::of(800), surely(Turns::of(1000)), torque_about(60));
  CHECK(torque.value.in_gf_cm() == Approx(15));
  CHECK(torque.low.in_gf_cm() == Approx(torque_about(15).low.in_gf_cm()));
  CHECK(torque.high.in_gf_cm() == Approx(torque_about(15).high.in_gf_cm()));
}

TEST_CASE("its interval is that of turns and torque drawn independently of each other") {
  // Quantiles instead of random draws: the same in every run.
  std::vector<double> drawn;
  constexpr int kEach = 300;
  for (int i = 0; i < kEach; ++i) {
    const double n =
        1000 * std::exp(calc::kTurnsFactorU * calc::normal_quantile((i + 0.5) / kEach));
    const double share = calc::TorqueCurve::by_default(Turns::of(n), Torque::si(1))
                             .torque_at(Turns::of(800))
                             .in_si();
    for (int j = 0; j < kEach; ++j) {
      drawn.push_back(60 * share *
                      std::exp(calc::kTorqueFactorU * calc::normal_quantile((j + 0.5) / kEach)));
    }
  }
  std::ranges::sort(drawn);
  const auto at = [&](double share) {
    return drawn[static_cast<std::size_t>(share * static_cast<double>(drawn.size()))];
  };
  const auto torque = calc::expected_torque(Turns::of(800), turns_about(1000), torque_about(60));
  CHECK(torque.low.in_gf_cm() == Approx(at(0.025)).epsilon(0.08));
  CHECK(torque.high.in_gf_cm() == Approx(at(0.975)).epsilon(0.08));
}

TEST_CASE(
    "a torque that was read is what is expected there, and the default shape goes on from it") {
  const calc::TorquePoint read{Turns::of(800), Torque::gf_cm(30)};
  const auto there = calc::expected_torque(Turns::of(800), turns_about(1000), read);
  CHECK(there.value.in_gf_cm() == Approx(30));
  // Another day and another meter are never sure to say the same: ±10 % standard uncertainty.
  CHECK(there.low.in_gf_cm() == Approx(30 / std::exp(0.10 * 1.959964)));
  CHECK(there.high.in_gf_cm() == Approx(30 * std::exp(0.10 * 1.959964)));
  const auto further = calc::expected_torque(Turns::of(900), turns_about(1000), read);
  CHECK(further.value.in_gf_cm() == Approx(30 * 0.460 / 0.250));  // points of the default curve
  CHECK(further.low < further.value);
  CHECK(further.high >= further.value);
}

TEST_CASE("oiling again adds the upper end of the uptake, off the margin only where it counts") {
  records::Planned p;
  CHECK_FALSE(calc::oil_again(p, Mass::g(1.5), std::nullopt).has_value());
  p.lubricant = "oil";
  p.uptake = {Share::percent(1.2), Share::percent(0.4)};
  p.rule = records::PlannedRule{"club", Mass::g(1.5), {}, Weighed::fresh, {}};
  calc::Judgement now;
  now.margin = Mass::mg(20);
  auto oil = calc::oil_again(p, Mass::g(1.5), now);
  REQUIRE(oil.has_value());
  CHECK(oil->adds.in_mg() == Approx(1500 * (0.012 + 1.959964 * 0.004)));
  CHECK_FALSE(oil->leaves.has_value());
  p.rule->counts.lubricant = true;
  oil = calc::oil_again(p, Mass::g(1.5), now);
  REQUIRE(oil->leaves.has_value());
  CHECK(oil->leaves->in_mg() == Approx(20 - oil->adds.in_mg()));
  CHECK_FALSE(calc::oil_again(p, Mass::g(1.5), std::nullopt)->leaves.has_value());
}
