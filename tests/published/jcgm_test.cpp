// SPDX-License-Identifier: MIT
//
// JCGM 100:2008 (uncertainty of a reading) and JCGM 106:2012 (guard bands and conformance). The
// k factors are quoted in pages on JCGM 106; the three examples are from memory with their
// probabilities recomputed.
#include <doctest/doctest.h>

#include <cmath>

#include "calc/turns_torque.h"
#include "calc/weigh.h"
#include "support/printed.h"

using namespace loopledger;
using calc::normal_share_below;
using test::printed;

TEST_CASE("JCGM 106: guard band factors for a risk of 5 % and 1 %") {
  CHECK(calc::guard_factor(Share::percent(95)) == printed("1.645"));
  CHECK(calc::guard_factor(Share::percent(99)) == printed("2.33"));
  CHECK(std::fabs(calc::guard_factor(Share::percent(50))) < 1e-12);
}

TEST_CASE("JCGM 106, examples: probability that what was measured conforms") {
  // -5.47 V, u 0.05 V, at most -5.40 V.
  CHECK(normal_share_below((-5.40 - -5.47) / 0.05) == printed("0.92"));
  // 509.7 kPa, u 8.6 kPa, at least 490 kPa.
  CHECK(1 - normal_share_below((490 - 509.7) / 8.6) == printed("0.99"));
  // 13.6, u 1.8, within 12.5 to 16.3.
  CHECK(normal_share_below((16.3 - 13.6) / 1.8) - normal_share_below((12.5 - 13.6) / 1.8) ==
        printed("0.66"));
}

TEST_CASE("JCGM 106, first example through a judgement: the motor takes the place of the voltage") {
  // A reading 0.07 under the limit with u = 0.05: probability 0.92 again, by the judgement itself.
  // The example's error is normal, so it is the tails that carry it: a scale's largest error is
  // rectangular, and of that alone the probability would be 0.90.
  records::Planned motor;
  motor.linear_density.value = LinearDensity::g_per_m(2.4);
  motor.rule = records::PlannedRule{};
  motor.rule->limit = Mass::g(1.5);
  motor.confidence = Share::percent(95);
  motor.tails = Length::mm(100);
  motor.linear_density.u = LinearDensity::g_per_m(0.5);  // of 100 mm: 50 mg; no scale's error
  const calc::Judgement judged = calc::judge(motor, Stage::washed, Mass::g(1.43 + 0.24), {});
  REQUIRE(judged.within.has_value());
  CHECK(judged.within->as_ratio() == printed("0.92"));
  CHECK(judged.counted.u.in_mg() == printed("50.0"));
}

TEST_CASE("JCGM 106: a normal error's guard band is k u; a rectangular one's can't pass its end") {
  calc::ErrorParts normal;
  normal.add_normal(Mass::mg(3));
  normal.add_normal(Mass::mg(4));
  CHECK(normal.guard(Share::percent(95)).in_mg() / 5 == printed("1.645"));
  CHECK(normal.guard(Share::percent(99)).in_mg() / 5 == printed("2.33"));
  CHECK(normal.share_below(Mass::mg(7)).as_ratio() == printed("0.92"));
  // Of a rectangular part alone the share below x is (x + a)/(2 a): exact.
  calc::ErrorParts rectangular;
  rectangular.add_rectangular(Mass::mg(2));
  CHECK(rectangular.guard(Share::percent(95)).in_mg() == printed("1.80"));
  CHECK(rectangular.guard(Share::percent(99.9)).in_mg() == printed("1.996"));
  CHECK(rectangular.share_below(Mass::mg(1)).as_ratio() == printed("0.75"));
  // Two of them are a triangle: below x lies 1 - (2 a - x)^2/(8 a^2).
  rectangular.add_rectangular(Mass::mg(2));
  CHECK(rectangular.guard(Share::percent(98)).in_mg() == printed("3.2"));
}

TEST_CASE("JCGM 100, F.2.2.1 and 4.3.7: what a step and a largest error are worth") {
  // One resolution limit is step/sqrt(12) = 0.29 step; a reading has two, its own and the zero's.
  CHECK(calc::scale_u(Mass::mg(1), Mass{}).in_mg() / std::sqrt(2.0) == printed("0.29"));
  CHECK(calc::scale_u(Mass{}, Mass::mg(1)).in_mg() == printed("0.58"));  // a/sqrt(3), computed
}
