// SPDX-License-Identifier: MIT
//
// Figures of the trade that any builder would check the program against: common practice, no
// source.
#include <doctest/doctest.h>

#include <cmath>

#include "calc/weigh.h"
#include "support/first_motor.h"
#include "support/printed.h"
#include "support/small_plan.h"

using namespace loopledger;
using test::given;
using test::printed;

namespace {

constexpr Counts kRingsLeftOut{
    .rubber = true, .lubricant = true, .rings = false, .adhesive = false};

plan::Plan practice_plan() {
  plan::Plan plan = test::small_plan(test::section_strip(Length::in(3.0 / 32), Length::in(0.042)));
  plan.rings.push_back(test::ten_rings());
  plan.rules.push_back(test::rule(Mass::g(1.5), kRingsLeftOut));
  plan.motors[0].rings = 0;
  plan.motors[0].rule = 0;
  plan.motors[0].knot = plan::MotorGroup{}.knot;
  plan.motors[0].allowance = plan::MotorGroup{}.allowance;
  plan.motors[0].mass_is_limit = true;
  return plan;
}

}  // namespace

TEST_CASE("common practice, no source: 1.5 g of 3/32 in strip ties a loop of about 300 mm") {
  plan::Plan plan = practice_plan();
  plan.motors[0].mass_is_limit = false;
  plan.motors[0].mass = given(Mass::g(1.5));
  plan.motors[0].rule.reset();
  CHECK(test::first_motor(plan).loop.in_mm() == doctest::Approx(300).epsilon(0.05));
}

TEST_CASE("common practice, no source: ten rings weighed together, divided by ten, times two") {
  const records::Planned motor = test::first_motor(practice_plan());
  CHECK(motor.ring_count == 2);
  CHECK(motor.rings.value.in_mg() == printed("12.000"));
  CHECK((motor.rings.value / motor.ring_count).in_mg() == printed("6.000"));
  // The scale's part is common to both rings, the spread from ring to ring is not: computed from
  // a step and an error of 1 mg, 0.3 mg of spread, and ten weighed together.
  const double scale = std::sqrt(2.0 / 12 + 1.0 / 3);
  const double u = std::sqrt(std::pow(2 * scale / 10, 2) + 2 * std::pow(0.3, 2));
  CHECK(motor.rings.u.in_mg() == doctest::Approx(u).epsilon(1e-9));
}

TEST_CASE("common practice, no source: 1.537 g cut, 1.498 g washed, 1.509 g tied is 3 mg under") {
  const records::Planned motor = test::first_motor(practice_plan());
  const calc::Judgement tied = calc::judge(motor, Stage::tied, Mass::g(1.509));
  CHECK(tied.counted.mass.in_g() == printed("1.497"));
  REQUIRE(tied.margin.has_value());
  CHECK(tied.margin->in_mg() == printed("3.000"));

  // 1.498 g and 12 mg of rings read 1.510 g; the scale said 1.509 g, one step away.
  const calc::TyingCheck tying = calc::check_tying(motor, Mass::g(1.498), Mass::g(1.509));
  CHECK(tying.difference.in_mg() == printed("11.000"));
  CHECK(tying.expected.in_mg() == printed("12.000"));
  CHECK(tying.agrees);
  CHECK(tying.rings_missing == 0);
  // With one ring forgotten it would have read 1.504 g.
  CHECK(calc::check_tying(motor, Mass::g(1.498), Mass::g(1.504)).rings_missing == 1);

  // The strip it was cut as is long enough for all of that.
  CHECK(*motor.windows.of(Stage::as_cut).low < Mass::g(1.537));
}

TEST_CASE("common practice, no source: the same under a rule that counts the rings is over") {
  plan::Plan plan = practice_plan();
  plan.rules[0].counts.value.rings = true;
  const calc::Judgement tied = calc::judge(test::first_motor(plan), Stage::tied, Mass::g(1.509));
  REQUIRE(tied.margin.has_value());
  CHECK(tied.margin->in_mg() == printed("-9.000"));
  CHECK(tied.verdict == calc::Verdict::over);
}

TEST_CASE("common practice, no source: strip from 0.020 in to 1/8 in is worked the same way") {
  Length before;
  for (const double width : {1.0 / 8, 3.0 / 32, 1.0 / 16, 0.040, 0.020}) {
    CAPTURE(width);
    plan::Plan plan = practice_plan();
    plan.strips[0].width = given(Length::in(width));
    const records::Planned motor = test::first_motor(plan);
    // The same rubber in a narrower strip: a longer loop, the strip that stays in proportion.
    CHECK(motor.loop > before);
    before = motor.loop;
    CHECK((motor.stays * motor.linear_density.value).in_g() ==
          doctest::Approx(motor.aim.in_g()).epsilon(1e-9));
    CHECK(motor.stays.in_in() * width ==
          doctest::Approx(motor.aim.in_g() / (0.93 * 16.387064 * 0.042)).epsilon(1e-9));
  }
}

TEST_CASE("common practice, no source: windows are whole steps of a scale that reads to 1 mg") {
  const records::Planned motor = test::first_motor(practice_plan());
  for (const Stage stage : {Stage::washed, Stage::tied, Stage::finished}) {
    const records::Window& window = motor.windows.of(stage);
    REQUIRE(window.low.has_value());
    REQUIRE(window.high.has_value());
    for (const Mass end : {*window.low, *window.high}) {
      const double steps = end / Mass::mg(1);
      CHECK(steps == doctest::Approx(static_cast<double>(static_cast<long>(steps + 0.5))));
    }
    CHECK(*window.low <= *window.high);
  }
}
