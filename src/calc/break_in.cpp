// SPDX-License-Identifier: MIT
#include "calc/break_in.h"

#include <fmt/format.h>

#include <cmath>
#include <optional>

#include "base/quantity_text.h"
#include "calc/cranks.h"
#include "calc/turns_torque.h"

namespace loopledger::calc {
namespace {

std::optional<int> whole_cranks(Turns turns, double winder_ratio) {
  constexpr double kAnyone = 1e6;  // cranks: more is a damaged record
  if (!(winder_ratio > 0)) {
    return std::nullopt;
  }
  const double cranks = cranks_at_most(turns, winder_ratio);
  return cranks >= 0 && cranks < kAnyone ? std::optional(static_cast<int>(cranks)) : std::nullopt;
}

Diagnostic past_limit(const records::Planned& p, const plan::Recipe& recipe,
                      const plan::RecipeStep& step, Turns turns, const std::string& stem) {
  const Turns most = records::do_not_pass(p);
  return error(
      "recipe-past-limit",
      fmt::format(
          "motors \"{}\", recipe \"{}\": {} of the largest turns is {} turns, past \"do not "
          "pass\" at {} turns",
          stem, recipe.name, exact(*step.turns), std::ceil(turns.count()), shown_at_most(most)),
      fmt::format("at most {} % for strip \"{}\"", std::floor(most / p.turns_max.value * 100),
                  p.strip),
      step.place);
}

Diagnostic far_stretch(const plan::Recipe& recipe, const plan::RecipeStep& step) {
  return warning("recipe-stretch",
                 fmt::format("recipe \"{}\": {} times its length is near where rubber breaks; a "
                             "nick or a knot goes first",
                             recipe.name, rounded(*step.stretch, 3)),
                 "the published practice is 6 times; eye protection, and stop when it feels solid",
                 step.place);
}

}  // namespace

Diagnostics set_break_in(records::Planned& p, const plan::Recipe& recipe, const std::string& stem) {
  Diagnostics problems;
  p.break_in.clear();
  for (const plan::RecipeStep& step : recipe.steps) {
    records::BreakInStep out;
    if (step.stretch) {
      out.stretch = p.loop * *step.stretch;
      if (*step.stretch > kFarStretch) {
        problems.push_back(far_stretch(recipe, step));
      }
    }
    if (step.turns) {
      out.turns = p.turns_max.value * step.turns->as_ratio();
      out.cranks = whole_cranks(*out.turns, p.winder_ratio);
      if (*out.turns > records::do_not_pass(p)) {
        problems.push_back(past_limit(p, recipe, step, *out.turns, stem));
      }
    }
    if (step.torque) {
      out.stop_torque = p.torque_max.value * step.torque->as_ratio();
    }
    out.hold = step.hold;
    out.rest = step.rest;
    out.repeat = step.repeat;
    out.note = step.note;
    p.break_in.push_back(out);
  }
  return problems;
}

bool winds(const records::BreakInStep& step) { return step.turns || step.stop_torque; }

Estimate<Torque> stop_torque(const records::Planned& p, const records::BreakInStep& step) {
  return share_of(p.torque_max, *step.stop_torque);
}

StepNow step_now(const records::Planned& p, const records::BreakInStep& step, Length loop_as_tied,
                 const Estimate<Turns>& largest) {
  StepNow now{step, false};
  if (step.stretch && p.loop > Length{}) {
    now.step.stretch = *step.stretch * (loop_as_tied / p.loop);
  }
  if (step.turns && p.turns_max.value > Turns{}) {
    now.step.turns = *step.turns * (largest.value / p.turns_max.value);
    if (*now.step.turns > largest.low) {
      now.step.turns = largest.low;
      now.held_back = true;
    }
    now.step.cranks = whole_cranks(*now.step.turns, p.winder_ratio);
  }
  return now;
}

void count_cranks(records::Planned& p) {
  for (records::BreakInStep& step : p.break_in) {
    step.cranks = step.turns ? whole_cranks(*step.turns, p.winder_ratio) : std::nullopt;
  }
}

Length broken_in_loop(Length as_tied) { return as_tied * (1 + kSetNextDay); }

}  // namespace loopledger::calc
