// SPDX-License-Identifier: MIT
#include "calc/break_in.h"

#include <doctest/doctest.h>

using namespace loopledger;
using doctest::Approx;

namespace {

records::Planned motor() {
  records::Planned p;
  p.strip = "tan";
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
  CHECK(calc::set_break_in(p, recipe, "TH").empty());
  REQUIRE(p.break_in.size() == 2);
  CHECK(p.break_in[0].stretch->in_mm() == Approx(1500));
  CHECK_FALSE(p.break_in[0].turns.has_value());
  CHECK(p.break_in[1].turns->count() == Approx(700));
  CHECK(p.break_in[1].cranks == 46);  // 46.67
  CHECK(p.break_in[1].stop_torque->in_gf_cm() == Approx(52.5));
  CHECK(p.break_in[1].repeat == 2);
}

TEST_CASE("without gearing cranks are the turns, not rounded up") {
  records::Planned p = motor();
  p.winder_ratio = 1;
  plan::Recipe recipe;
  plan::RecipeStep wind;
  wind.turns = Share::percent(50.05);  // 700.7 turns
  recipe.steps = {wind};
  CHECK(calc::set_break_in(p, recipe, "TH").empty());
  CHECK(p.break_in.at(0).cranks == 700);
}

TEST_CASE("a step past do not pass is refused, with the most that may be asked for") {
  records::Planned p = motor();
  plan::Recipe recipe;
  recipe.name = "hasty";
  plan::RecipeStep wind;
  wind.turns = Share::percent(90);
  recipe.steps = {wind};
  const Diagnostics faults = calc::set_break_in(p, recipe, "TH");
  REQUIRE(faults.size() == 1);
  CHECK(faults.front().message ==
        "motors \"TH\", recipe \"hasty\": 90 % of the largest turns is 1260 turns, past \"do not "
        "pass\" at 1200 "
        "turns");
  CHECK(faults.front().hint == "at most 85 % for strip \"tan\"");
}

TEST_CASE("a torque to stop at has the interval of the largest torque") {
  records::Planned p = motor();
  plan::Recipe recipe;
  plan::RecipeStep wind;
  wind.torque = Share::percent(50);
  wind.note = "slowly";
  recipe.steps = {wind};
  CHECK(calc::set_break_in(p, recipe, "TH").empty());
  const Estimate<Torque> stop = calc::stop_torque(p, p.break_in[0]);
  CHECK(stop.value.in_gf_cm() == Approx(35));
  CHECK(stop.low.in_gf_cm() == Approx(21.5));
  CHECK(stop.high.in_gf_cm() == Approx(57));
  CHECK(p.break_in[0].note == "slowly");
  CHECK_FALSE(p.break_in[0].turns.has_value());
}

TEST_CASE("a part motor's steps are held against its own turns") {
  records::Planned p = motor();
  p.part = 0.5;
  p.turns_max = {Turns::of(700), Turns::of(600), Turns::of(820)};
  plan::Recipe recipe;
  plan::RecipeStep wind;
  wind.turns = Share::percent(80);
  recipe.steps = {wind};
  CHECK(calc::set_break_in(p, recipe, "TH").empty());
  CHECK(p.break_in[0].turns->count() == Approx(560));
}

TEST_CASE("whole cranks never pass do not pass, and a damaged record gives none") {
  records::Planned p = motor();
  plan::Recipe recipe;
  plan::RecipeStep wind;
  wind.turns = Share::ratio(1199.0 / 1400);
  recipe.steps = {wind};
  p.winder_ratio = 1200.0 / 79.6;  // 79.53 cranks: the nearest 80 are 1206 turns
  CHECK(calc::set_break_in(p, recipe, "TH").empty());
  CHECK(p.break_in[0].cranks == 79);
  p.winder_ratio = 0;
  CHECK_FALSE(calc::step_now(p, p.break_in[0], p.loop, p.turns_max).step.cranks.has_value());
  p.torque_max = {};
  p.break_in[0].stop_torque = Torque::gf_cm(30);
  CHECK(calc::stop_torque(p, p.break_in[0]).low == Torque{});
}

TEST_CASE("a step follows the loop as it was tied, and is held back at do not pass") {
  records::Planned p = motor();
  plan::Recipe recipe;
  plan::RecipeStep both;
  both.stretch = 5;
  both.turns = Share::percent(80);
  recipe.steps = {both};
  CHECK(calc::set_break_in(p, recipe, "TH").empty());
  const auto now = [&](double loop, Estimate<Turns> largest) {
    return calc::step_now(p, p.break_in[0], Length::mm(loop), largest);
  };
  const calc::StepNow same = now(300, p.turns_max);
  CHECK(same.step.stretch->in_mm() == Approx(1500));
  CHECK(same.step.turns->count() == Approx(1120));
  CHECK_FALSE(same.held_back);
  const calc::StepNow shorter = now(270, {Turns::of(1260), Turns::of(1080), Turns::of(1476)});
  CHECK(shorter.step.stretch->in_mm() == Approx(1350));
  CHECK(shorter.step.turns->count() == Approx(1008));
  CHECK(shorter.step.cranks == 67);
  const calc::StepNow unsure = now(270, {Turns::of(1260), Turns::of(900), Turns::of(1700)});
  CHECK(unsure.held_back);
  CHECK(unsure.step.turns->count() == Approx(900));
  CHECK(unsure.step.cranks == 60);
}
