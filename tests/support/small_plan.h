// SPDX-License-Identifier: MIT
//
// The smallest plan that the calculator takes, made in code for tests of single figures: a scale
// that reads to 1 mg, one strip of known linear density, one motor. Tests change what they are
// about.
#pragma once

#include <string>
#include <utility>

#include "plan/plan.h"

namespace loopledger::test {

template <class T>
plan::Placed<T> given(T value) {
  plan::Placed<T> placed;
  placed.value = std::move(value);
  placed.given = true;
  return placed;
}

/// A strip without samples: width x thickness at 0.93 g/cm3 [density].
inline plan::Strip section_strip(Length width, Length thickness) {
  plan::Strip strip;
  strip.name = "sport";
  strip.width = given(width);
  strip.thickness = given(thickness);
  return strip;
}

/// A strip whose linear density comes from one weighed piece, washed.
inline plan::Strip weighed_strip(Length length, Mass mass) {
  plan::Strip strip;
  strip.name = "sport";
  strip.samples = {{length, mass, {}}};
  return strip;
}

/// One motor from this strip, no knot, no tails, no allowance, no rule; give it a mass or a loop.
inline plan::Plan small_plan(plan::Strip strip) {
  plan::Plan plan;
  plan.bench.scale_step = given(Mass::mg(1));
  plan.bench.scale_error = given(Mass::mg(1));
  plan.strips.push_back(std::move(strip));
  plan::MotorGroup group;
  group.stem = given(std::string("TH"));
  group.knot = given(Length{});
  group.allowance = given(Length{});
  group.window = given(Mass::mg(3));
  plan.motors.push_back(group);
  return plan;
}

/// Ten rings of 6 mg on the scale together, two to a motor (common practice, no source).
inline plan::Rings ten_rings() {
  plan::Rings rings;
  rings.name = "slices";
  rings.weighed = given(10);
  rings.mass = given(Mass::mg(60));
  rings.spread = given(Mass::mg(0.3));
  return rings;
}

inline plan::Rule rule(Mass limit, Counts counts, Weighed weighed = Weighed::fresh) {
  plan::Rule r;
  r.name = "event";
  r.limit = given(limit);
  r.counts = given(counts);
  r.weighed = given(weighed);
  return r;
}

}  // namespace loopledger::test
