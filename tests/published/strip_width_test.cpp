// SPDX-License-Identifier: MIT
//
// A worked example that goes through the whole planning of one motor: the width to slit a strip to,
// indoorarchive.github.io/1309/15206.
#include <doctest/doctest.h>

#include "support/first_motor.h"
#include "support/printed.h"
#include "support/small_plan.h"

using namespace loopledger;
using test::given;
using test::printed;

TEST_CASE("1309/15206: a 14 in loop of 1.000 g from a strip that weighs 2.54 g per 30 in") {
  // 1 in for the knot on each leg is cut off after tying: tails of 2 in, nothing stays in the knot.
  plan::Strip strip = test::weighed_strip(Length::in(30), Mass::g(2.54));
  strip.width = given(Length::in(0.128));
  plan::Plan plan = test::small_plan(strip);
  plan.motors[0].mass = given(Mass::g(1.0));
  plan.motors[0].loop = given(Length::in(14));
  plan.motors[0].tails = given(Length::in(2));

  const records::Planned motor = test::first_motor(plan);
  REQUIRE(motor.width.has_value());
  CHECK(motor.slit);
  CHECK(motor.width->in_in() == printed("0.05399"));
  CHECK(motor.loop.in_in() == printed("14.000"));
  CHECK(motor.stays.in_in() == printed("28.000"));
  CHECK(motor.cut.in_in() == printed("30.000"));
  CHECK((motor.linear_density.value * motor.stays).in_g() == printed("1.000"));
}
