// SPDX-License-Identifier: MIT
#include "calc/break_in.h"

#include <fmt/format.h>

#include <cmath>

namespace loopledger::calc {

Diagnostics set_break_in(records::Planned& p, const plan::Recipe& recipe) {
  Diagnostics problems;
  p.break_in.clear();
  for (const plan::RecipeStep& step : recipe.steps) {
    records::BreakInStep out;
    if (step.stretch) {
      out.stretch = p.loop * *step.stretch;
    }
    if (step.turns) {
      out.turns = p.turns_max.value * step.turns->as_ratio();
      out.cranks = static_cast<int>(std::lround(out.turns->count() / p.winder_ratio));
      if (*out.turns > records::do_not_pass(p)) {
        problems.push_back(
            error("recipe-past-limit",
                  fmt::format(
                      "recipe \"{}\": {} of the largest turns is {} turns, past \"do not pass\" at "
                      "{} turns",
                      recipe.name, exact(*step.turns), std::lround(out.turns->count()),
                      std::lround(records::do_not_pass(p).count())),
                  fmt::format("at most {} % for this strip",
                              std::floor(records::do_not_pass(p) / p.turns_max.value * 100)),
                  step.place));
      }
    }
    if (step.torque) {
      out.stop_torque = p.torque_max.value * step.torque->as_ratio();
    }
    out.hold = step.hold;
    out.rest = step.rest;
    out.repeat = step.repeat;
    p.break_in.push_back(out);
  }
  return problems;
}

}  // namespace loopledger::calc
