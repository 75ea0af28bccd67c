// SPDX-License-Identifier: MIT
#include "motor/lot_factors.h"

#include <doctest/doctest.h>

using namespace loopledger;
using motor::LotFactors;

namespace {

calc::LotFit fit_of(double next, double relative_u) {
  calc::LotFit fit;
  fit.middle = {next, next * 0.95, next * 1.05};
  fit.next = {next, next * 0.9, next * 1.1};
  fit.next_u = relative_u;
  return fit;
}

LotFactors lot_of(std::vector<calc::FitDatum> turns, std::vector<calc::FitDatum> torque) {
  LotFactors lot;
  lot.turns_prior = {calc::kTurnsFactor, calc::kFitTurnsU};
  lot.torque_prior = {calc::kTorqueFactor.in_mpa(), calc::kTorqueFactorU};
  lot.turns = fit_of(10.06, 0.0984);
  lot.torque = fit_of(0.523, 0.15);
  lot.data.turns = std::move(turns);
  lot.data.torque = std::move(torque);
  return lot;
}

constexpr calc::FitDatum kAtLimit{9.7, false};
constexpr calc::FitDatum kStopped{7, true};

}  // namespace

TEST_CASE("a value for the shelf has two figures of its uncertainty, and the unit twice") {
  CHECK(motor::shelf_value(fit_of(10.06, 0.0984), "") == "10.06 ± 0.99");
  CHECK(motor::shelf_value(fit_of(0.523, 0.15), "MPa") == "0.523 MPa ± 0.078 MPa");
  CHECK(motor::shelf_value(fit_of(100, 0.2), "") == "100 ± 20");
}

TEST_CASE("the shelf gets a line of what was seen at its limit, and of nothing else") {
  const LotFactors none = lot_of({kStopped}, {kStopped});
  CHECK_FALSE(motor::shelf_turns(none));
  CHECK_FALSE(motor::shelf_torque(none));
  const LotFactors turns = lot_of({kStopped, kAtLimit}, {});
  CHECK(motor::shelf_turns(turns) == "10.06 ± 0.99");
  CHECK_FALSE(motor::shelf_torque(turns));
  CHECK(motor::shelf_torque(lot_of({}, {kAtLimit})) == "0.523 MPa ± 0.078 MPa");
}

TEST_CASE("wind to is a larger share of the largest turns the surer a lot's own factor is") {
  LotFactors lot = lot_of({kAtLimit}, {});
  const double unsure = motor::wind_to_share(lot);
  lot.turns.next_u = 0.05;
  CHECK(motor::wind_to_share(lot) > unsure);
  CHECK(motor::wind_to_share(lot) < 1);
  lot.data.turns = {kStopped};  // then it is what was known before
  const double before = motor::wind_to_share(lot);
  lot.turns.next_u = 0.2;
  CHECK(motor::wind_to_share(lot) == before);
}

TEST_CASE("three motors at their limit are no longer few") {
  LotFactors lot = lot_of({}, {});
  CHECK(motor::few_at_limit(lot));
  lot.data.broke = 2;
  CHECK(motor::few_at_limit(lot));
  lot.data.solid = 1;
  CHECK_FALSE(motor::few_at_limit(lot));
}

TEST_CASE("a lot that contradicts what was known, or whose motors differ much, is told of") {
  LotFactors lot = lot_of({kAtLimit}, {kAtLimit});
  CHECK(motor::surprises(lot).empty());
  lot.torque.prior_tail = 0.012;
  lot.turns.seen_spread = 0.15;
  const std::vector<std::string> said = motor::surprises(lot);
  REQUIRE(said.size() == 2);
  CHECK(said[0].starts_with(
      "Its motors contradict what was known before of k_Q, 0.6 ± 25 %: so far off comes 1.2 times "
      "in 100."));
  CHECK(said[1].starts_with("Its motors differ by 15 % in turns, more than the "));
  lot.torque.prior_tail = calc::kContradicts;
  lot.turns.seen_spread = calc::kTurnsFactorU;
  CHECK(motor::surprises(lot).empty());
}
