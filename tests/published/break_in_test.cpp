// SPDX-License-Identifier: MIT
//
// Published ways of breaking in, each against the recipe of templates/recipes that follows it, on a
// loop of 300 mm. Sources: indoorarchive.github.io 1203/10567, 0705/2838, 1103/8597; B. Hunt,
// Rubber Testing, Indoor News and Views 21, Feb 1993; J. Horton, Rubber Motor Testing, American
// Aircraft Modeler, Aug 1968, p. 47.
#include <doctest/doctest.h>

#include <string>

#include "calc/break_in.h"
#include "calc/linear_density.h"
#include "calc/plan_motor.h"
#include "support/printed.h"
#include "support/templates.h"

using namespace loopledger;
using test::printed;

namespace {

records::Planned broken_in_by(const std::string& recipe) {
  const auto plan = plan::read_plan(
      "format = 1\n[bench]\nscale_step = \"1 mg\"\n[recipes.published]\ntake = \"" + recipe +
          "\"\n[strips.sport]\nwidth = \"3/32 in\"\nthickness = \"1 mm\"\n[[motors]]\nid = "
          "\"TH\"\nloop = \"300 mm\"\nrecipe = \"published\"\n",
      "plan.toml", test::template_sources());
  CAPTURE(render(plan.diagnostics()));
  REQUIRE(plan.ok());
  CHECK_FALSE(plan->recipes[0].source.empty());
  auto motor =
      calc::plan_motor(*plan, plan->motors[0], calc::linear_density(plan->strips[0], plan->bench));
  CAPTURE(render(motor.diagnostics()));
  REQUIRE(motor.ok());
  return *motor;
}

}  // namespace

TEST_CASE("1203/10567: six times its length for six minutes, then 75 % of the largest torque") {
  const records::Planned p = broken_in_by("stretch-6-wind-75");
  REQUIRE(p.break_in.size() == 2);
  CHECK(p.break_in[0].stretch->in_mm() == printed("1800"));
  CHECK(p.break_in[0].hold->in_min() == printed("6"));
  CHECK(p.break_in[0].note == "lubricated");
  CHECK(*p.break_in[1].stop_torque / p.torque_max.value == printed("0.75"));
  CHECK_FALSE(p.break_in[1].turns.has_value());
}

TEST_CASE("0705/2838: to about 80 % of the breaking load, four minutes") {
  const records::Planned p = broken_in_by("near-break-4min");
  REQUIRE(p.break_in.size() == 1);
  CHECK(p.break_in[0].hold->in_min() == printed("4"));
  CHECK(p.break_in[0].note.find("80 %") != std::string::npos);
  CHECK_FALSE(p.break_in[0].stretch.has_value());  // the source gives no length
}

TEST_CASE("Hunt 1993: until it feels solid, two minutes") {
  const records::Planned p = broken_in_by("solid-2min");
  REQUIRE(p.break_in.size() == 1);
  CHECK(p.break_in[0].hold->in_min() == printed("2"));
  CHECK(p.break_in[0].note == "stretch until it feels solid");
}

TEST_CASE("1103/8597: five minutes, an hour of rest, again, and overnight") {
  const records::Planned p = broken_in_by("twice-5min");
  REQUIRE(p.break_in.size() == 2);
  CHECK(p.break_in[0].hold->in_min() == printed("5"));
  CHECK(p.break_in[0].rest->in_h() == printed("1"));
  CHECK(p.break_in[1].hold->in_min() == printed("5"));
  CHECK_FALSE(p.break_in[1].rest.has_value());
  CHECK(p.break_in[1].note.find("overnight") != std::string::npos);
}

TEST_CASE("Horton 1968: four times its length for 72 hours; a day to recover after winding") {
  const records::Planned p = broken_in_by("stretch-4-72h");
  REQUIRE(p.break_in.size() == 1);
  CHECK(p.break_in[0].stretch->in_mm() == printed("1200"));
  CHECK(p.break_in[0].hold->in_h() == printed("72"));
  CHECK(p.break_in[0].note.find("24 h") != std::string::npos);
}
