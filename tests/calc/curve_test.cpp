// SPDX-License-Identifier: MIT
#include "calc/curve.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

using namespace loopledger;
using calc::TorqueCurve;
using calc::TorquePoint;
using doctest::Approx;

namespace {

TorquePoint point(double turns, double gf_cm) { return {Turns::of(turns), Torque::gf_cm(gf_cm)}; }

/// Energy by adding up thin strips of torque, in joules.
double energy_by_strips(const TorqueCurve& curve, double turns) {
  constexpr int kStrips = 40000;
  double sum = 0;
  for (int i = 0; i < kStrips; ++i) {
    const double n = turns * (i + 0.5) / kStrips;
    sum += 2 * std::numbers::pi * curve.torque_at(Turns::of(n)).in_si() * turns / kStrips;
  }
  return sum;
}

/// Torques as someone reads them: a rising curve with noise, in steps of half a gram-centimetre.
std::vector<TorquePoint> noisy_readings(std::mt19937& random) {
  std::uniform_int_distribution<int> count(3, 30);
  std::uniform_real_distribution<double> turns(1, 2000);
  std::normal_distribution<double> noise(0, 4);
  std::vector<TorquePoint> points;
  const int n = count(random);
  for (int i = 0; i < n; ++i) {
    const double at = std::round(turns(random) / 10) * 10 + 10;
    points.push_back(point(at, std::round(std::max(0.5, at / 40 + noise(random)) * 2) / 2));
  }
  return points;
}

}  // namespace

TEST_CASE("a curve goes through what was read and ends at its top") {
  const auto curve =
      TorqueCurve::through({point(1200, 41), point(1100, 30), point(1000, 22), point(600, 12)});
  REQUIRE(curve.has_value());
  CHECK(curve->top_turns().count() == 1200);
  CHECK(curve->top_torque().in_gf_cm() == Approx(41));
  CHECK(curve->torque_at(Turns::of(1100)).in_gf_cm() == Approx(30));
  CHECK(curve->torque_at(Turns::of(600)).in_gf_cm() == Approx(12));
  CHECK(curve->torque_at(Turns::of(0)).in_gf_cm() == Approx(0));
  CHECK(curve->torque_at(Turns::of(5000)).in_gf_cm() == Approx(41));
  CHECK(curve->turns_at(Torque::gf_cm(22)).count() == Approx(1000));
}

TEST_CASE("below what was read it follows the default shape through the lowest reading") {
  const auto curve = TorqueCurve::through({point(1000, 40), point(950, 24), point(900, 18.4)});
  REQUIRE(curve.has_value());
  const TorqueCurve usual = TorqueCurve::by_default(Turns::of(1000), Torque::gf_cm(40));
  for (const double turns : {50.0, 200.0, 500.0, 700.0}) {
    CHECK(curve->torque_at(Turns::of(turns)) / usual.torque_at(Turns::of(turns)) ==
          Approx(18.4 / usual.torque_at(Turns::of(900)).in_gf_cm()).epsilon(1e-9));
  }
}

TEST_CASE(
    "readings in any order, twice at the same turns, or falling are made into one that rises") {
  const auto twice =
      TorqueCurve::through({point(900, 20), point(1000, 40), point(900, 22), point(500, 10)});
  REQUIRE(twice.has_value());
  CHECK(twice->torque_at(Turns::of(900)).in_gf_cm() == Approx(21));
  const auto falling =
      TorqueCurve::through({point(1000, 40), point(900, 20), point(800, 24), point(500, 10)});
  REQUIRE(falling.has_value());
  CHECK(falling->torque_at(Turns::of(800)).in_gf_cm() == Approx(22));
  CHECK(falling->torque_at(Turns::of(900)).in_gf_cm() == Approx(22));
  // Where the torque stays the same over a range, the most turns are left in.
  CHECK(falling->turns_at(Torque::gf_cm(22)).count() == Approx(900).epsilon(0.002));
}

TEST_CASE("too few readings, or none above nothing, make no curve") {
  CHECK_FALSE(TorqueCurve::through({}).has_value());
  CHECK_FALSE(TorqueCurve::through({point(1000, 40), point(900, 20)}).has_value());
  CHECK_FALSE(TorqueCurve::through({point(1000, 40), point(900, 20), point(900, 21)}).has_value());
  CHECK_FALSE(TorqueCurve::through({point(1000, 0), point(900, 0), point(800, 0)}).has_value());
}

TEST_CASE("whatever was read, the curve only rises and its two ways round agree") {
  std::mt19937 random(20260501);
  int made = 0;
  for (int run = 0; run < 300; ++run) {
    const auto curve = TorqueCurve::through(noisy_readings(random));
    if (!curve) {
      continue;
    }
    ++made;
    const double top = curve->top_turns().count();
    Torque before;
    for (int i = 0; i <= 400; ++i) {
      const Torque q = curve->torque_at(Turns::of(top * i / 400));
      REQUIRE(q >= before - Torque::gf_cm(1e-9));
      before = std::max(before, q);
    }
    for (const double share : {0.1, 0.4, 0.8, 0.95}) {
      const Torque launch = curve->top_torque() * share;
      const calc::BackedOff left = calc::let_out(*curve, calc::back_off(*curve, launch));
      REQUIRE(left.torque.in_si() == Approx(launch.in_si()).epsilon(1e-6));
      REQUIRE(left.lost >= Share{});
      REQUIRE(left.lost <= Share::ratio(1));
    }
  }
  CHECK(made > 250);
}

TEST_CASE("the energy is what thin strips add up to, for the default and for a motor's own curve") {
  const TorqueCurve usual = TorqueCurve::by_default(Turns::of(1400), Torque::gf_cm(70));
  CHECK(usual.energy_below(Turns::of(1400)).in_joule() ==
        Approx(energy_by_strips(usual, 1400)).epsilon(1e-6));
  CHECK(usual.energy_below(Turns::of(1000)).in_joule() ==
        Approx(energy_by_strips(usual, 1000)).epsilon(1e-6));
  std::mt19937 random(7);
  for (int run = 0; run < 20; ++run) {
    const auto own = TorqueCurve::through(noisy_readings(random));
    if (own) {
      const double top = own->top_turns().count();
      CHECK(own->energy_below(Turns::of(0.7 * top)).in_joule() ==
            Approx(energy_by_strips(*own, 0.7 * top)).epsilon(1e-5));
    }
  }
}

TEST_CASE("a straight line of torque holds the energy of a triangle") {
  std::vector<TorquePoint> line;
  for (int i = 1; i <= 20; ++i) {
    line.push_back(point(50 * i, 2 * i));
  }
  const auto curve = TorqueCurve::through(line);
  REQUIRE(curve.has_value());
  // From 50 turns up: half of 40 gf.cm over 1000 turns, less the triangle below the first reading.
  const Energy above = curve->energy_below(Turns::of(1000)) - curve->energy_below(Turns::of(50));
  const Energy triangle = work(Torque::gf_cm(40), Turns::of(1000)) * 0.5;
  CHECK(above / triangle == Approx(1 - 0.05 * 0.05).epsilon(1e-9));
}

TEST_CASE("scaled to another top, the curve keeps its shape; energy goes with both") {
  const auto own = TorqueCurve::through({point(1000, 40), point(900, 22), point(700, 14)});
  REQUIRE(own.has_value());
  const TorqueCurve twice = own->scaled_to(Turns::of(2000), Torque::gf_cm(20));
  CHECK(twice.torque_at(Turns::of(1800)).in_gf_cm() == Approx(11));
  CHECK(twice.energy_below(Turns::of(2000)).in_joule() ==
        Approx(own->energy_below(Turns::of(1000)).in_joule()));
}

TEST_CASE("letting out more than all leaves nothing; a launch above the top lets out nothing") {
  const TorqueCurve curve = TorqueCurve::by_default(Turns::of(1000), Torque::gf_cm(40));
  const calc::BackedOff all = calc::let_out(curve, Turns::of(1500));
  CHECK(all.turns.count() == 0);
  CHECK(all.torque.in_gf_cm() == Approx(0));
  CHECK(all.lost.as_ratio() == Approx(1));
  CHECK(calc::back_off(curve, Torque::gf_cm(55)).count() == 0);
  CHECK(calc::back_off(curve, Torque::gf_cm(40)).count() == 0);
}
