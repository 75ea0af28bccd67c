// SPDX-License-Identifier: MIT
//
// A motor with everything on it, for tests of the weighing: limit 1.5 g, strip of 2.4575 g/m,
// 12 rings of 84 mg together, lubricant 1.3 %, adhesive 1.5 mg, talc 0.9 %, tails 20 mm.
#pragma once

#include "support/small_plan.h"

namespace loopledger::test {

inline plan::Plan full_plan(Counts counts, Weighed weighed) {
  plan::Plan plan = small_plan(weighed_strip(Length::m(1), Mass::g(2.4575)));
  plan.bench.scale_error = given(Mass::mg(2));
  plan.strips[0].talc = given(Uncertain<Share>{Share::percent(0.9), Share::percent(0.3)});
  plan::Rings rings;
  rings.name = "tube";
  rings.weighed = given(12);
  rings.mass = given(Mass::mg(84));
  rings.spread = given(Mass::mg(0.4));
  plan.rings.push_back(rings);
  plan::Lubricant oil;
  oil.name = "soap";
  oil.uptake = given(Uncertain<Share>{Share::percent(1.3), Share::percent(0.4)});
  oil.left = given(Uncertain<Share>{Share::percent(0.6), Share::percent(0.2)});
  plan.lubricants.push_back(oil);
  plan::Adhesive dot;
  dot.name = "dot";
  dot.mass = given(Uncertain<Mass>{Mass::mg(1.5), Mass::mg(0.5)});
  plan.adhesives.push_back(dot);
  plan.rules.push_back(rule(Mass::g(1.5), counts, weighed));
  plan::MotorGroup& group = plan.motors[0];
  group.rule = 0;
  group.rings = 0;
  group.lubricant = 0;
  group.adhesive = 0;
  group.mass_is_limit = true;
  group.knot = given(Length::mm(16));
  group.tails = given(Length::mm(20));
  group.allowance = given(Length::mm(10));
  return plan;
}

inline constexpr Counts kRubberAndOil{
    .rubber = true, .lubricant = true, .rings = false, .adhesive = false};

}  // namespace loopledger::test
