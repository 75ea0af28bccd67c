// SPDX-License-Identifier: MIT
#include "calc/fit.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

using namespace loopledger;
using calc::FitDatum;
using calc::LotFit;
using doctest::Approx;

namespace {

const calc::Factor<double> kTurnsPrior{calc::kTurnsFactor, calc::kTurnsFactorU};

/// A lot with a known middle and spread, and motors of it: wound to their limit, or stopped at some
/// share of it.
class InventedLot {
 public:
  InventedLot(double middle, double spread, unsigned seed)
      : middle_(std::log(middle)), spread_(spread), engine_(seed) {}
  double limit() { return std::exp(middle_ + spread_ * normal_(engine_)); }
  FitDatum to_the_limit() { return {limit(), false}; }
  /// As flyers do: stopped at a share of the estimate, whatever this motor would have stood; one
  /// that does not stand it breaks there.
  FitDatum stopped_at(double factor) {
    const double own = limit();
    return own < factor ? FitDatum{own, false} : FitDatum{factor, true};
  }

 private:
  double middle_;
  double spread_;
  std::mt19937 engine_;
  std::normal_distribution<double> normal_;
};

}  // namespace

TEST_CASE("without a motor the lot is what was known before") {
  for (const auto& prior : {kTurnsPrior, calc::Factor<double>{0.6, 0.25}}) {
    const LotFit fit = calc::fit_lot(prior, {});
    CHECK(fit.next.value == Approx(prior.value).epsilon(1e-6));
    CHECK(fit.next_u == Approx(prior.relative_u).epsilon(1e-4));
    const auto before = calc::log_normal(prior.value, prior.relative_u);
    CHECK(fit.next.low == Approx(before.low).epsilon(1e-4));
    CHECK(fit.next.high == Approx(before.high).epsilon(1e-4));
    CHECK(std::log(fit.middle.high / fit.middle.value) ==
          Approx(1.96 * prior.relative_u / std::sqrt(2.0)).epsilon(2e-3));
  }
}

TEST_CASE("more motors draw the middle to theirs, and what is left is from motor to motor") {
  InventedLot lot(9.6, 0.04, 5);
  std::vector<FitDatum> data;
  double width = 1;
  for (const std::size_t count : {3U, 10U, 40U, 160U}) {
    while (data.size() < count) {
      data.push_back(lot.to_the_limit());
    }
    const LotFit fit = calc::fit_lot(kTurnsPrior, data);
    const double now = std::log(fit.middle.high / fit.middle.low);
    CHECK(now < width);
    CHECK(fit.next_u > fit.motor_to_motor);
    width = now;
  }
  const LotFit fit = calc::fit_lot(kTurnsPrior, data);
  CHECK(fit.middle.value == Approx(9.6).epsilon(0.01));
  CHECK(fit.motor_to_motor == Approx(0.04).epsilon(0.15));
  CHECK(fit.next_u == Approx(0.04).epsilon(0.15));
  // The risk is that of a single motor: its uncertainty does not go to nothing with the number.
  const Estimate<Turns> largest{Turns::of(1000), Turns::of(900), Turns::of(1100)};
  CHECK(calc::wind_to(largest, {fit.next.value, fit.next_u}, 0, true).count() < 930);
}

TEST_CASE("a motor that was stopped says at least that: the factor rises or stays, never falls") {
  InventedLot lot(11, 0.05, 6);
  std::vector<FitDatum> data{lot.to_the_limit(), lot.to_the_limit(), lot.to_the_limit()};
  const LotFit before = calc::fit_lot(kTurnsPrior, data);
  for (const double share : {0.3, 0.6, 0.8, 0.95, 1.1}) {
    std::vector<FitDatum> more = data;
    more.push_back({before.middle.value * share, true});
    const LotFit after = calc::fit_lot(kTurnsPrior, more);
    CHECK(after.middle.value >= before.middle.value * (1 - 1e-6));
    if (share >= 0.95) {
      CHECK(after.middle.value > before.middle.value * 1.001);
    }
  }
}

TEST_CASE("cautious winding does not pull the factor down") {
  // Thirty flyers who all stop at 70 % of a lot that is as usual.
  InventedLot usual(11, 0.05, 7);
  std::vector<FitDatum> cautious;
  for (int i = 0; i < 30; ++i) {
    cautious.push_back(usual.stopped_at(0.7 * 11));
  }
  const LotFit fit = calc::fit_lot(kTurnsPrior, cautious);
  CHECK(fit.middle.value >= 11 * (1 - 1e-6));
  CHECK(fit.middle.value < 11 * 1.03);
  // The same beside ten that went to their limit: the limit decides.
  InventedLot strong(12, 0.04, 8);
  std::vector<FitDatum> some;
  for (int i = 0; i < 10; ++i) {
    some.push_back(strong.to_the_limit());
  }
  const double alone = calc::fit_lot(kTurnsPrior, some).middle.value;
  for (int i = 0; i < 60; ++i) {
    some.push_back(strong.stopped_at(0.75 * 12));
  }
  const double beside = calc::fit_lot(kTurnsPrior, some).middle.value;
  CHECK(beside >= alone * (1 - 1e-6));
  CHECK(beside == Approx(alone).epsilon(0.01));
}

TEST_CASE("lots drawn as the prior says: 95 of 100 intervals hold the truth, and the next motor") {
  constexpr int kLots = 600;
  const double half = calc::kTurnsFactorU / std::sqrt(2.0);
  std::mt19937 engine(20260301);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> caution(0.7, 1.05);
  int middles = 0;
  int next = 0;
  for (int i = 0; i < kLots; ++i) {
    const double middle = calc::kTurnsFactor * std::exp(half * normal(engine));
    const double spread = half * std::exp(-calc::kSpreadLogSd * calc::kSpreadLogSd +
                                          calc::kSpreadLogSd * normal(engine));
    InventedLot lot(middle, spread, static_cast<unsigned>(engine()));
    std::vector<FitDatum> data;
    for (int m = 0; m < 4; ++m) {
      data.push_back(lot.to_the_limit());
      data.push_back(lot.stopped_at(caution(engine) * calc::kTurnsFactor));
    }
    const LotFit fit = calc::fit_lot(kTurnsPrior, data);
    middles += middle >= fit.middle.low && middle <= fit.middle.high ? 1 : 0;
    const double one = lot.limit();
    next += one >= fit.next.low && one <= fit.next.high ? 1 : 0;
  }
  // Three standard errors of 600 draws are 2.7 points.
  CHECK(std::fabs(middles / double{kLots} - 0.95) < 0.027);
  CHECK(std::fabs(next / double{kLots} - 0.95) < 0.027);
}

TEST_CASE("lots far from the usual are found too once thirty motors of them were wound") {
  constexpr int kLots = 100;
  for (const double middle : {9.5, 11.0, 12.5}) {
    CAPTURE(middle);
    int held = 0;
    for (unsigned seed = 0; seed < kLots; ++seed) {
      InventedLot lot(middle, 0.05, 1000 + seed);
      std::vector<FitDatum> data;
      for (int m = 0; m < 15; ++m) {
        data.push_back(lot.to_the_limit());
        data.push_back(lot.stopped_at(0.9 * middle));
      }
      const LotFit fit = calc::fit_lot(kTurnsPrior, data);
      held += middle >= fit.middle.low && middle <= fit.middle.high ? 1 : 0;
    }
    CHECK(held >= 90);
  }
}

TEST_CASE("a fitted lot's wind to keeps near its 2 % of broken motors, however they differ") {
  struct Claim {
    double spread;
    int motors;
    double most;  ///< percent that break, over many lots; "within reason": what `fit` says
  };
  for (const Claim& claim : {Claim{0.04, 3, 2}, Claim{0.04, 10, 2}, Claim{0.08, 3, 3},
                             Claim{0.08, 10, 3}, Claim{0.12, 3, 6}, Claim{0.12, 10, 4}}) {
    CAPTURE(claim.spread);
    CAPTURE(claim.motors);
    double broken = 0;
    constexpr int kLots = 150;
    for (int i = 0; i < kLots; ++i) {
      // Lots over the published spread, 9 to 13.
      const double middle = 9.2 + 3.6 * (i + 0.5) / kLots;
      InventedLot lot(middle, claim.spread, static_cast<unsigned>(500 + i));
      std::vector<FitDatum> data;
      for (int m = 0; m < claim.motors; ++m) {
        data.push_back(lot.to_the_limit());
      }
      const LotFit fit = calc::fit_lot({calc::kTurnsFactor, calc::kFitTurnsU}, data);
      const calc::Factor<double> k{fit.next.value, fit.next_u};
      const double to =
          calc::wind_to(calc::log_normal(Turns::of(k.value), k.relative_u), k, 0, true).count();
      broken += calc::breaking_risk(to / middle, claim.spread) * 100 / kLots;
    }
    CHECK(broken <= claim.most);
  }
}

TEST_CASE("the prior of a fit spans the published lots, and says when a lot contradicts it") {
  const calc::Factor<double> prior{calc::kTurnsFactor, calc::kFitTurnsU};
  const LotFit before = calc::fit_lot(prior, {});
  CHECK(before.middle.low > 8.9);
  CHECK(before.middle.low < 9.2);
  CHECK(before.middle.high > 13.0);
  CHECK_FALSE(before.prior_tail.has_value());
  const LotFit usual = calc::fit_lot(prior, {{10.5, false}, {11.5, false}, {11.0, true}});
  REQUIRE(usual.prior_tail.has_value());
  CHECK(*usual.prior_tail > 0.5);
  CHECK_FALSE(usual.seen_spread.has_value());
  const LotFit odd = calc::fit_lot(prior, {{7.9, false}, {8.0, false}, {8.1, false}});
  CHECK(*odd.prior_tail < calc::kContradicts);
  REQUIRE(odd.seen_spread.has_value());
  CHECK(*odd.seen_spread == Approx(0.0125).epsilon(0.01));
}

TEST_CASE("lots drawn from the prior contradict it five times in a hundred") {
  const double half = calc::kFitTurnsU / std::sqrt(2.0);
  std::mt19937 engine(11);
  std::normal_distribution<double> normal;
  int told = 0;
  constexpr int kLots = 1000;
  for (int i = 0; i < kLots; ++i) {
    const double spread = half * std::exp(-calc::kSpreadLogSd * calc::kSpreadLogSd +
                                          calc::kSpreadLogSd * normal(engine));
    InventedLot lot(calc::kTurnsFactor * std::exp(half * normal(engine)), spread,
                    static_cast<unsigned>(engine()));
    const std::vector<FitDatum> data{lot.to_the_limit(), lot.to_the_limit(), lot.to_the_limit()};
    const LotFit fit = calc::fit_lot({calc::kTurnsFactor, calc::kFitTurnsU}, data, {21, 11});
    told += *fit.prior_tail < calc::kContradicts ? 1 : 0;
  }
  CHECK(told > 30);
  CHECK(told < 75);
}

TEST_CASE("of a poor lot a third of the motors break at 0.80; on an average over lots 0.3 %") {
  CHECK(calc::breaking_risk(calc::kWindToShare, calc::kTurnsFactorU) ==
        Approx(0.0026).epsilon(0.02));
  CHECK(calc::breaking_risk_of_lot(calc::kWindToShare, calc::kPoorTurnsFactor) ==
        Approx(0.3456).epsilon(0.002));  // Phi(ln(8.8/9) / (0.08/sqrt 2)), computed apart
  // The average over lots of what each lot does is what is said without knowing the lot.
  double average = 0;
  constexpr int kLots = 4000;
  for (int i = 0; i < kLots; ++i) {
    const double z = calc::normal_quantile((i + 0.5) / kLots);
    average += calc::breaking_risk_of_lot(
                   calc::kWindToShare,
                   calc::kTurnsFactor * std::exp(z * calc::kTurnsFactorU / std::sqrt(2.0))) /
               kLots;
  }
  CHECK(average ==
        Approx(calc::breaking_risk(calc::kWindToShare, calc::kTurnsFactorU)).epsilon(0.02));
}

TEST_CASE("a finer grid gives the same") {
  InventedLot lot(10.2, 0.06, 9);
  std::vector<FitDatum> data;
  for (int i = 0; i < 6; ++i) {
    data.push_back(i % 2 == 0 ? lot.to_the_limit() : lot.stopped_at(9.8));
    const LotFit usual = calc::fit_lot(kTurnsPrior, data);
    const LotFit fine = calc::fit_lot(kTurnsPrior, data, {401, 201});
    CHECK(usual.middle.value == Approx(fine.middle.value).epsilon(2e-5));
    CHECK(usual.middle.low == Approx(fine.middle.low).epsilon(3e-4));
    CHECK(usual.middle.high == Approx(fine.middle.high).epsilon(3e-4));
    CHECK(usual.next_u == Approx(fine.next_u).epsilon(1e-3));
  }
}

TEST_CASE("computed apart: the same posterior summed in plain Python over 1601 x 801 midpoints") {
  const LotFit turns = calc::fit_lot(
      kTurnsPrior, {{10.1, false}, {9.6, false}, {9.0, true}, {10.2, true}, {10.4, false}});
  CHECK(turns.middle.value == Approx(10.331909).epsilon(1e-5));
  CHECK(turns.middle.low == Approx(9.860364).epsilon(1e-4));
  CHECK(turns.middle.high == Approx(10.982777).epsilon(1e-4));
  CHECK(turns.motor_to_motor == Approx(0.0552291).epsilon(1e-3));
  CHECK(turns.next_u == Approx(0.0615412).epsilon(1e-3));
}
