// SPDX-License-Identifier: MIT
//
// Invented ledgers whose truth is known: motors are tied, broken in, wound and logged as flyers do
// it, and what comes out must hold the factor that went in.
#include "motor/lot_data.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <string>

#include "calc/turns_torque.h"

using namespace loopledger;
using records::Entry;
using records::Kind;
using records::Record;

namespace {

constexpr double kSectionMm2 = 5;

/// One flyer's habits and one lot's truth.
class InventedLedger {
 public:
  InventedLedger(double k_n, double k_q_mpa, double spread, unsigned seed)
      : k_n_(k_n), k_q_mpa_(k_q_mpa), spread_(spread), engine_(seed) {}

  Record motor(int number) {
    Record record;
    record.id = {"IL", number};
    record.planned.loop = Length::mm(300);
    record.planned.section = Area::mm2(kSectionMm2);
    const Length tied = Length::mm(300 + 4 * normal_(engine_));
    add(record, Kind::tied).loop = tied;
    Length now = tied;
    if (chance(0.7)) {  // the others were never measured after break-in
      now = tied * (1.03 + 0.005 * normal_(engine_));
      add(record, Kind::break_in).loop_after = now;
    }
    // What this motor would stand, by the loop as it is logged.
    const double turns =
        k_n_ * std::exp(spread_ * normal_(engine_)) * (now / sqrt(record.planned.section));
    const Torque torque = Torque::si(k_q_mpa_ * 1e6 * std::exp(2 * spread_ * normal_(engine_)) *
                                     std::pow(record.planned.section.in_si(), 1.5));
    wind_as_flyers_do(record, turns, torque);
    return record;
  }

 private:
  bool chance(double share) { return uniform_(engine_) < share; }

  static Entry& add(Record& record, Kind kind) {
    Entry e;
    e.kind = kind;
    e.key = "20260501T1000" + std::to_string(10 + record.entries.size()) + "Z-aaaa";
    record.entries.push_back(e);
    return record.entries.back();
  }

  /// A careful one first; then to the limit, or stopped at most of it, or lost at the knot.
  void wind_as_flyers_do(Record& record, double turns, Torque torque) {
    Entry& careful = add(record, Kind::wound);
    careful.turns = Turns::of(0.5 * turns);
    careful.torque = torque * 0.3;
    careful.end = WindEnd::stopped;
    const double how = uniform_(engine_);
    Entry& far = add(record, Kind::wound);
    if (how < 0.3) {
      far.turns = Turns::of(turns);
      far.torque = torque;
      far.end = WindEnd::broke;
      add(record, Kind::broke).where = BreakPlace::middle;
    } else if (how < 0.5) {
      far.turns = Turns::of(turns);
      far.torque = torque;
      far.end = WindEnd::solid;
    } else if (how < 0.6) {  // the knot slips at three quarters of what the rubber would stand
      far.turns = Turns::of(0.75 * turns);
      far.torque = torque * 0.5;
      far.end = WindEnd::broke;
      add(record, Kind::broke).where = BreakPlace::knot;
    } else {
      far.turns = Turns::of(0.8 * turns);
      far.torque = torque * 0.6;
      far.end = WindEnd::stopped;
    }
  }

  double k_n_;
  double k_q_mpa_;
  double spread_;
  std::mt19937 engine_;
  std::normal_distribution<double> normal_;
  std::uniform_real_distribution<double> uniform_;
};

}  // namespace

TEST_CASE("ledgers of a known lot: the intervals of both factors hold it as often as they say") {
  constexpr int kLedgers = 200;
  constexpr int kMotorsEach = 12;
  constexpr double kTruthTurns = 10.7;
  constexpr double kTruthTorque = 0.55;
  int turns = 0;
  int torque = 0;
  for (unsigned seed = 1; seed <= kLedgers; ++seed) {
    InventedLedger ledger(kTruthTurns, kTruthTorque, 0.05, seed);
    motor::LotData lot;
    for (int i = 1; i <= kMotorsEach; ++i) {
      motor::add_to_lot(ledger.motor(i), calc::kTurnsFactor, calc::kTorqueFactor.in_mpa(), lot);
    }
    REQUIRE(lot.motors == kMotorsEach);
    REQUIRE(lot.broke + lot.solid + lot.stopped == kMotorsEach);
    const auto holds = [](const calc::LotFit& fit, double truth) {
      return truth >= fit.middle.low && truth <= fit.middle.high ? 1 : 0;
    };
    turns +=
        holds(calc::fit_lot({calc::kTurnsFactor, calc::kTurnsFactorU}, lot.turns), kTruthTurns);
    torque += holds(calc::fit_lot({calc::kTorqueFactor.in_mpa(), calc::kTorqueFactorU}, lot.torque),
                    kTruthTorque);
  }
  // 95 % of 200, less three standard errors; a prior that is not far off can only help.
  CHECK(turns >= 180);
  CHECK(torque >= 180);
}

TEST_CASE("of two events the one at the limit counts; of several at it, the one with most turns") {
  Record record;
  record.planned.loop = Length::mm(300);
  record.planned.section = Area::mm2(kSectionMm2);
  const auto wound = [&](double turns, WindEnd end) {
    Entry e;
    e.kind = Kind::wound;
    e.key = "20260501T100010Z-aaaa";
    e.turns = Turns::of(turns);
    e.end = end;
    record.entries.push_back(e);
  };
  wound(1400, WindEnd::stopped);
  wound(1350, WindEnd::solid);
  wound(1380, WindEnd::solid);
  motor::LotData lot;
  motor::add_to_lot(record, 11, 0.6, lot);
  REQUIRE(lot.turns.size() == 1);
  CHECK_FALSE(lot.turns[0].at_least);
  CHECK(lot.turns[0].factor == doctest::Approx(1380 * std::sqrt(kSectionMm2) / 300));
  CHECK(lot.torque.empty());
  CHECK(lot.solid == 1);
}

TEST_CASE("an entry whose turns are a slip gives no torque either") {
  Record record;
  record.planned.loop = Length::mm(300);
  record.planned.section = Area::mm2(kSectionMm2);
  Entry e;
  e.kind = Kind::wound;
  e.key = "20260501T100010Z-aaaa";
  e.turns = Turns::of(14000);
  e.torque = Torque::gf_cm(60);
  e.end = WindEnd::broke;
  record.entries.push_back(e);
  motor::LotData lot;
  motor::add_to_lot(record, 11, 0.6, lot);
  CHECK(lot.turns.empty());
  CHECK(lot.torque.empty());
  REQUIRE(lot.left_out.size() == 1);
  CHECK(lot.left_out[0].when == "2026-05-01");
}
