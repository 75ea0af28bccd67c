// SPDX-License-Identifier: MIT
//
// The curve of a motor after a partial winding. Demo data, invented.
#include "calc/unwinding.h"

#include <doctest/doctest.h>

#include <optional>
#include <random>

#include "calc/ahead.h"
#include "calc/turns_torque.h"

using namespace loopledger;
using calc::TorqueCurve;
using calc::TorquePoint;
using doctest::Approx;

namespace {

// A motor that is to be wound to 1155 turns, 0.80 of its largest.
const Estimate<Turns> kLargest = calc::log_normal(Turns::of(1155 / 0.8), 0.08);
const Estimate<Torque> kTorque = calc::log_normal(Torque::gf_cm(72.7), 0.25);

TorqueCurve curve(double from, std::optional<double> gf_cm,
                  const std::optional<calc::OwnCurve>& own = std::nullopt) {
  const auto read =
      gf_cm ? std::optional(TorquePoint{Turns::of(from), Torque::gf_cm(*gf_cm)}) : std::nullopt;
  return calc::unwinding_curve(kLargest, kTorque, Turns::of(from), read, own);
}

double joule(const TorqueCurve& c) { return c.energy_below(c.top_turns()).in_joule(); }
double left_gf_cm(const TorqueCurve& c, double let_out) {
  return c.torque_at(c.top_turns() * (1 - let_out)).in_gf_cm();
}
double usual_gf_cm(double turns) {
  return TorqueCurve::by_default(kLargest.value, kTorque.value)
      .torque_at(Turns::of(turns))
      .in_gf_cm();
}

calc::OwnCurve own_of(double turns, double gf_cm, std::vector<records::TurnsTorque> pairs) {
  records::Entry wound;
  wound.kind = records::Kind::wound;
  wound.turns = Turns::of(turns);
  wound.torque = Torque::gf_cm(gf_cm);
  wound.pairs = std::move(pairs);
  return *calc::own_curve_of(wound);
}

}  // namespace

TEST_CASE("a torque that was read as expected changes neither energy nor what is left in") {
  const TorqueCurve before = curve(1155, std::nullopt);
  CHECK(joule(before) == Approx(7.16).epsilon(0.005));
  CHECK(left_gf_cm(before, 0.2) == Approx(12.3).epsilon(0.005));
  const Torque expected = calc::expected_torque(Turns::of(1155), kLargest, kTorque).value;
  const TorqueCurve after = curve(1155, expected.in_gf_cm());
  CHECK(joule(after) == Approx(joule(before)).epsilon(1e-9));
  for (const double out : {0.02, 0.1, 0.2, 0.5, 0.9}) {
    CHECK(left_gf_cm(after, out) == Approx(left_gf_cm(before, out)).epsilon(1e-9));
  }
}

TEST_CASE("a reading off by 1.3 moves no torque below the first drop by more than that") {
  for (const double share : {0.3, 0.5, 0.7, 0.8, 0.9, 0.97, 0.998, 1.0}) {
    const double turns = kLargest.value.count() * share;
    CAPTURE(share);
    for (const double off : {1 / 1.3, 0.95, 1.05, 1.3}) {
      const TorqueCurve read = curve(turns, off * usual_gf_cm(turns));
      CHECK(read.top_torque().in_gf_cm() == Approx(off * usual_gf_cm(turns)));
      for (const double out : {0.03, 0.1, 0.3, 0.6}) {
        const double ratio = left_gf_cm(read, out) / usual_gf_cm(turns * (1 - out));
        CAPTURE(out);
        CHECK(ratio <= std::max(1.0, off) * 1.02);
        CHECK(ratio >= std::min(1.0, off) * 0.98);
      }
    }
  }
}

TEST_CASE("weaker where it was read is weaker everywhere; higher is the first drop at first") {
  const TorqueCurve weak = curve(1155, 0.7 * usual_gf_cm(1155));
  CHECK(left_gf_cm(weak, 0.4) == Approx(0.7 * usual_gf_cm(0.6 * 1155)).epsilon(0.01));
  const TorqueCurve high = curve(1155, 1.3 * usual_gf_cm(1155));
  CHECK(left_gf_cm(high, 0.1) == Approx(usual_gf_cm(0.9 * 1155)).epsilon(0.01));
  const TorqueCurve strong = curve(1155, 2.2 * usual_gf_cm(1155));
  CHECK(left_gf_cm(strong, 0.1) > 1.4 * usual_gf_cm(0.9 * 1155));
  CHECK(left_gf_cm(strong, 0.1) < 1.7 * usual_gf_cm(0.9 * 1155));
}

TEST_CASE("read at the largest turns, the curve is the default's through the reading") {
  for (const double gf_cm : {40.0, 72.7, 90.0}) {
    const double turns = kLargest.value.count();
    const TorqueCurve read = curve(turns, gf_cm);
    const TorqueCurve usual = TorqueCurve::by_default(kLargest.value, Torque::gf_cm(gf_cm));
    for (const double out : {0.0, 0.02, 0.05, 0.2, 0.5}) {
      CHECK(left_gf_cm(read, out) == Approx(left_gf_cm(usual, out)).epsilon(0.02));
    }
    // And it comes there without a jump.
    CHECK(joule(curve(turns * 0.9999, gf_cm)) == Approx(joule(read)).epsilon(0.03));
  }
}

TEST_CASE("its own read torques keep their turns after another winding") {
  const auto own = own_of(1000, 22,
                          {{Turns::of(950), Torque::gf_cm(13)},
                           {Turns::of(800), Torque::gf_cm(11)},
                           {Turns::of(600), Torque::gf_cm(9)}});
  const TorqueCurve same = curve(1000, 22, own);
  CHECK(same.top_torque().in_gf_cm() == Approx(22));
  CHECK(same.torque_at(Turns::of(800)).in_gf_cm() == Approx(11));
  // Wound further: the old top is from before its first drop, and no point of the curve.
  const TorqueCurve further = curve(1155, std::nullopt, own);
  CHECK(further.torque_at(Turns::of(800)).in_gf_cm() == Approx(11));
  CHECK(further.torque_at(Turns::of(600)).in_gf_cm() == Approx(9));
  CHECK(further.torque_at(Turns::of(1000)).in_gf_cm() < 15);
  CHECK(further.top_torque().in_gf_cm() > 15);
}

TEST_CASE("whatever was read, the torque rises with the turns") {
  std::mt19937 random(6);
  std::uniform_real_distribution<double> turns(1, 2200);
  std::uniform_real_distribution<double> torque(0.1, 200);
  for (int i = 0; i < 2000; ++i) {
    std::optional<calc::OwnCurve> own;
    if (i % 2 == 1) {
      std::vector<records::TurnsTorque> pairs;
      for (int k = 0; k < 4; ++k) {
        pairs.push_back({Turns::of(turns(random)), Torque::gf_cm(torque(random))});
      }
      records::Entry wound;
      wound.turns = Turns::of(2300);
      wound.torque = Torque::gf_cm(210);
      wound.pairs = pairs;
      own = calc::own_curve_of(wound);
    }
    const TorqueCurve c = curve(turns(random), torque(random), own);
    const auto points = c.points();
    for (std::size_t k = 1; k < points.size(); ++k) {
      REQUIRE(points[k].turns > points[k - 1].turns);
      REQUIRE(points[k].torque >= points[k - 1].torque * (1 - 1e-9));
    }
    REQUIRE(joule(c) > 0);
  }
}
