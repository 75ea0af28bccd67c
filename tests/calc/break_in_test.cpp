// SPDX-License-Identifier: MIT
#include "calc/break_in.h"

#include <doctest/doctest.h>

using namespace loopledger;
using doctest::Approx;

namespace {

records::Planned motor() {
  records::Planned p;
  p.loop = Length::mm(300);
  p.turns_max = {Turns::of(1400), Turns::of(1200), Turns::of(1640)};
  p.torque_max = {Torque::gf_cm(70), Torque::gf_cm(43), Torque::gf_cm(114)};
  p.winder_ratio = 15;
  return p;
}

}  // namespace

TEST_CASE("a recipe's shares become lengths, turns, cranks and torques") {
  records::Planned p = motor();
  plan::Recipe recipe;
  recipe.name = "slow";
  plan::RecipeStep stretch;
  stretch.stretch = 5;
  stretch.hold = Duration::min(5);
  plan::RecipeStep wind;
  wind.turns = Share::percent(50);
  wind.torque = Share::percent(75);
  wind.repeat = 2;
  recipe.steps = {stretch, wind};
  CHECK(calc::set_break_in(p, recipe).empty());
  REQUIRE(p.break_in.size() == 2);
  CHECK(p.break_in[0].stretch->in_mm() == Approx(1500));
  CHECK_FALSE(p.break_in[0].turns.has_value());
  CHECK(p.break_in[1].turns->count() == Approx(700));
  CHECK(p.break_in[1].cranks == 47);  // 46.67
  CHECK(p.break_in[1].stop_torque->in_gf_cm() == Approx(52.5));
  CHECK(p.break_in[1].repeat == 2);
}

TEST_CASE("a step past do not pass is refused, with the most that may be asked for") {
  records::Planned p = motor();
  plan::Recipe recipe;
  recipe.name = "hasty";
  plan::RecipeStep wind;
  wind.turns = Share::percent(90);
  recipe.steps = {wind};
  const Diagnostics faults = calc::set_break_in(p, recipe);
  REQUIRE(faults.size() == 1);
  CHECK(faults.front().message ==
        "recipe \"hasty\": 90 % of the largest turns is 1260 turns, past \"do not pass\" at 1200 "
        "turns");
  CHECK(faults.front().hint == "at most 85 % for this strip");
}
