// SPDX-License-Identifier: MIT
//
// What a motor takes up of its lubricant and what is left later, against
// indoorarchive.github.io/1212/13268: 3.131 g dry, 3.167 g lubricated, 3.147 g the next day, 3.142
// g after 16 days.
#include <doctest/doctest.h>

#include "calc/weigh.h"
#include "support/first_motor.h"
#include "support/printed.h"
#include "support/small_plan.h"

using namespace loopledger;
using test::given;
using test::printed;

TEST_CASE("1212/13268: 3.131 g dry reads 3.167 g just lubricated, and 3.147 g the next day") {
  plan::Plan plan = test::small_plan(test::weighed_strip(Length::m(1), Mass::g(3.131)));
  plan.lubricants.push_back({});
  plan.lubricants[0].uptake = given(Uncertain<Share>{Share::percent(1.15), Share{}});
  plan.lubricants[0].left = given(Uncertain<Share>{Share::percent(0.5), Share{}});
  plan.motors[0].lubricant = 0;
  plan.motors[0].mass = given(Mass::g(3.131));
  records::Planned motor = test::first_motor(plan);
  CHECK(calc::reading_of(motor, Stage::finished, Mass::g(3.131)).in_g() == printed("3.167"));

  // Counted fresh it is what the scale says; counted rested it is what is left.
  motor.rule = records::PlannedRule{};
  motor.rule->limit = Mass::g(3.2);
  motor.rule->counts.lubricant = true;
  CHECK(calc::counted(motor, Stage::finished, Mass::g(3.167)).mass.in_g() == printed("3.167"));
  motor.rule->weighed = Weighed::rested;
  CHECK(calc::counted(motor, Stage::finished, Mass::g(3.167)).mass.in_g() == printed("3.147"));
}

TEST_CASE("1212/13268: with 0.5 % left, 3.131 g dry counts as it read the next day") {
  // A rule that weighs rested, on a motor wiped to what is left: within 2 mg of the next day's.
  plan::Plan plan = test::small_plan(test::weighed_strip(Length::m(1), Mass::g(3.131)));
  plan.lubricants.push_back({});
  plan.lubricants[0].uptake = given(Uncertain<Share>{Share::percent(1.15), Share{}});
  plan.lubricants[0].left = given(Uncertain<Share>{Share::percent(0.5), Share{}});
  plan.motors[0].lubricant = 0;
  plan.rules.push_back(
      test::rule(Mass::g(3.147), {.rubber = true, .lubricant = true}, Weighed::rested));
  plan.motors[0].rule = 0;
  plan.motors[0].mass_is_limit = true;
  const records::Planned motor = test::first_motor(plan);
  const calc::Counted counted = calc::counted(motor, Stage::washed, Mass::g(3.131));
  CHECK(counted.mass.in_g() == printed("3.147"));
}
