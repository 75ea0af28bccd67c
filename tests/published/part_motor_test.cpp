// SPDX-License-Identifier: MIT
//
// A part motor for a low ceiling, against indoorarchive.github.io/0906/5733: the full motor of 18
// in and 1.0 g, half of it 9 in and 0.5 g; on hooks 5.5 in apart a spacer of 2.75 in that weighs
// the other 0.5 g; wound to the same torque.
#include <doctest/doctest.h>

#include "support/first_motor.h"
#include "support/printed.h"
#include "support/small_plan.h"

using namespace loopledger;
using test::given;
using test::printed;

TEST_CASE("0906/5733: the half motor of 18 in and 1.0 g, with its spacer") {
  plan::Plan plan = test::small_plan(test::weighed_strip(Length::in(36), Mass::g(1.0)));
  plan.motors[0].mass = given(Mass::g(1.0));
  CHECK(test::first_motor(plan).loop.in_in() == printed("18.000"));
  const records::Planned full = test::first_motor(plan);

  plan.motors[0].part = given(0.5);
  plan.motors[0].hooks = given(Length::in(5.5));
  const records::Planned half = test::first_motor(plan);
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
