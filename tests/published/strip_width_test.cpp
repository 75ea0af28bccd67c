// SPDX-License-Identifier: MIT
//
// Worked examples that go through the whole planning of one motor: the width to slit a strip to
// (indoorarchive.github.io/1309/15206), a part motor (0906/5733), and the uptake of lubricant
// (1212/13268).
#include <doctest/doctest.h>

#include "calc/linear_density.h"
#include "calc/plan_motor.h"
#include "calc/weigh.h"
#include "support/printed.h"
#include "support/small_plan.h"

using namespace loopledger;
using test::given;
using test::printed;

namespace {

records::Planned planned(const plan::Plan& plan) {
  auto motor =
      calc::plan_motor(plan, plan.motors[0], calc::linear_density(plan.strips[0], plan.bench));
  REQUIRE(motor.ok());
  return *motor;
}

}  // namespace

TEST_CASE("1309/15206: a 14 in loop of 1.000 g from a strip that weighs 2.54 g per 30 in") {
  // 1 in for the knot on each leg is cut off after tying: tails of 2 in, nothing stays in the knot.
  plan::Strip strip = test::weighed_strip(Length::in(30), Mass::g(2.54));
  strip.width = given(Length::in(0.128));
  plan::Plan plan = test::small_plan(strip);
  plan.motors[0].mass = given(Mass::g(1.0));
  plan.motors[0].loop = given(Length::in(14));
  plan.motors[0].tails = given(Length::in(2));

  const records::Planned motor = planned(plan);
  REQUIRE(motor.width.has_value());
  CHECK(motor.slit);
  CHECK(motor.width->in_in() == printed("0.05399"));
  CHECK(motor.loop.in_in() == printed("14.000"));
  CHECK(motor.stays.in_in() == printed("28.000"));
  CHECK(motor.cut.in_in() == printed("30.000"));
  CHECK((motor.linear_density.value * motor.stays).in_g() == printed("1.000"));
}

TEST_CASE("0906/5733: the half motor of 18 in and 1.0 g, with its spacer") {
  plan::Plan plan = test::small_plan(test::weighed_strip(Length::in(36), Mass::g(1.0)));
  plan.motors[0].mass = given(Mass::g(1.0));
  CHECK(planned(plan).loop.in_in() == printed("18.000"));
  const records::Planned full = planned(plan);

  plan.motors[0].part = given(0.5);
  plan.motors[0].hooks = given(Length::in(5.5));
  const records::Planned half = planned(plan);
  CHECK(half.loop.in_in() == printed("9.000"));
  CHECK(half.aim.in_g() == printed("0.5"));
  REQUIRE(half.spacer.has_value());
  CHECK(half.spacer->in_in() == printed("2.75"));
  REQUIRE(half.ballast.has_value());
  CHECK(half.ballast->in_g() == printed("0.5"));
  // "Wound to the same torque", and half the turns.
  CHECK(half.torque_max.value.in_si() == doctest::Approx(full.torque_max.value.in_si()));
  CHECK(half.turns_max.value / full.turns_max.value == doctest::Approx(0.5));
}

TEST_CASE("1212/13268: 3.131 g dry reads 3.167 g just lubricated, and 3.142 g after 16 days") {
  plan::Plan plan = test::small_plan(test::weighed_strip(Length::m(1), Mass::g(3.131)));
  plan.lubricants.push_back({});
  plan.lubricants[0].uptake = given(Uncertain<Share>{Share::percent(1.15), Share{}});
  plan.lubricants[0].left = given(Uncertain<Share>{Share::ratio(3.142 / 3.131 - 1), Share{}});
  plan.motors[0].lubricant = 0;
  plan.motors[0].mass = given(Mass::g(3.131));
  records::Planned motor = planned(plan);
  CHECK(calc::reading_of(motor, Stage::finished, Mass::g(3.131)).in_g() == printed("3.167"));

  // Counted fresh it is what the scale says; counted rested it is what is left.
  motor.rule = records::PlannedRule{};
  motor.rule->limit = Mass::g(3.2);
  motor.rule->counts.lubricant = true;
  CHECK(calc::counted(motor, Stage::finished, Mass::g(3.167)).mass.in_g() == printed("3.167"));
  motor.rule->weighed = Weighed::rested;
  CHECK(calc::counted(motor, Stage::finished, Mass::g(3.167)).mass.in_g() == printed("3.142"));
}
