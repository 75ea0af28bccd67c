// SPDX-License-Identifier: MIT
//
// Torque while unwinding, against indoorarchive.github.io: energy lost by turns let out (0612/1700,
// a rule of thumb in steps of five percent) and torque read before and after (0612/1696,
// 1211/13058, 1310/15318). The curve is the project's own; it was drawn to follow these.
#include <doctest/doctest.h>

#include <cmath>

#include "calc/curve.h"
#include "support/printed.h"

using namespace loopledger;
using calc::TorqueCurve;
using test::printed;

namespace {

const TorqueCurve& unit_curve() {
  static const TorqueCurve kCurve = TorqueCurve::by_default(Turns::of(1), Torque::si(1));
  return kCurve;
}

/// Percent of the stored energy that is gone when this share of the turns is let out.
double lost_percent(double let_out) {
  return calc::let_out(unit_curve(), Turns::of(let_out)).lost.in_percent();
}

double torque_share(double turns_left, double of) {
  return unit_curve().torque_at(Turns::of(turns_left / of)).in_si();
}

/// The mean torque as a share of the largest.
double mean_torque() {
  return unit_curve().energy_below(Turns::of(1)) / work(Torque::si(1), Turns::of(1));
}

}  // namespace

TEST_CASE("energy lost by backing off is within half a step of the rule of thumb") {
  constexpr double kHalfStep = 2.5;  // published as multiples of five percent
  CHECK(std::fabs(lost_percent(0.10) - 30) <= kHalfStep);
  CHECK(std::fabs(lost_percent(0.15) - 40) <= kHalfStep);
  CHECK(std::fabs(lost_percent(0.20) - 45) <= kHalfStep);
}

TEST_CASE("turns to let out for a wanted torque are those published, within one in a hundred") {
  const auto out = [](double wound, double top, double launch) {
    const auto curve = TorqueCurve::by_default(Turns::of(wound), Torque::ozf_in(top));
    return calc::back_off(curve, Torque::ozf_in(launch)).count();
  };
  CHECK(std::fabs(out(2080, 0.90, 0.30) - 320) < 20.8);  // 0612/1696: 2080 -> 1760
  CHECK(std::fabs(out(2400, 0.97, 0.63) - 60) < 24);     // 1211/13058: 60 of 2400
  CHECK(std::fabs(out(1712, 0.5, 0.4) - 3) < 17.1);      // 1310/15318: 3 of 1712
  CHECK(out(1000, 0.5, 0.5) == doctest::Approx(0).epsilon(1e-6));
  CHECK(out(1000, 0.5, 0.9) == doctest::Approx(0).epsilon(1e-6));
}

TEST_CASE("computed: the same losses and the mean torque to three digits") {
  CHECK(lost_percent(0.10) == printed("29.1"));
  CHECK(lost_percent(0.15) == printed("38.9"));
  CHECK(lost_percent(0.20) == printed("46.0"));
  CHECK(mean_torque() == printed("0.204"));
}

TEST_CASE("three published torque pairs lie within 0.03 of the curve") {
  constexpr double kNear = 0.03;
  CHECK(std::fabs(torque_share(1760, 2080) - 0.30 / 0.90) <= kNear);
  CHECK(std::fabs(torque_share(2400 - 60, 2400) - 0.63 / 0.97) <= kNear);
  CHECK(std::fabs(torque_share(1712 - 3, 1712) - 0.4 / 0.5) <= kNear);
}

TEST_CASE("the curve only rises, and its area is that of a fine sum of strips") {
  constexpr int kStrips = 20000;
  double sum = 0;
  double before = -1;
  for (int i = 0; i < kStrips; ++i) {
    const double q = torque_share(i + 0.5, kStrips);
    REQUIRE(q >= before);
    before = q;
    sum += q / kStrips;
  }
  CHECK(mean_torque() == doctest::Approx(sum).epsilon(1e-6));
  CHECK(torque_share(0, 1) == doctest::Approx(0));
  CHECK(torque_share(1, 1) == doctest::Approx(1));
}
