// SPDX-License-Identifier: MIT
#include "calc/choose.h"

#include <algorithm>

#include "base/result.h"
#include "calc/cut_after.h"
#include "calc/energy.h"
#include "calc/plan_motor.h"

namespace loopledger::calc {
namespace {

constexpr int kMostStrands = 16;
constexpr int kMostStrandsWithoutHooks = 6;

/// The group as it would be at its limit on this strip.
plan::MotorGroup at_limit(const plan::MotorGroup& group, std::size_t strip, int strands) {
  plan::MotorGroup full = group;
  full.choosing = false;
  full.mass_is_limit = true;
  full.mass.place = group.place;
  full.strip = strip;
  full.strands.value = strands;
  full.recipe = std::nullopt;
  return full;
}

/// How many such motors the strip's pieces give, were nothing else cut from them.
std::optional<int> motors_from(const plan::Plan& plan, const plan::MotorGroup& full,
                               const StripFigures& figures) {
  const plan::Strip& strip = plan.strips[full.strip];
  if (strip.pieces.empty()) {
    return std::nullopt;
  }
  cutting::CuttingTask task;
  task.cut.emplace_back();
  for (std::size_t p = 0; p < strip.pieces.size(); ++p) {
    if (const auto planned = plan_motor(plan, full, figures.piece_density[p])) {
      task.pieces.push_back({figures.piece_length[p], strip.ends.value});
      task.cut.front().push_back(planned->cut);
    }
  }
  if (task.pieces.empty()) {
    return 0;
  }
  cutting::CuttingResult uncut;
  uncut.piece_of.emplace_back();
  return static_cast<int>(how_many_more(task, uncut).front());
}

/// The choices on one strip; why there is none, when there is none.
Diagnostics add_choices(const plan::Plan& plan, std::size_t g, std::size_t s,
                        const StripFigures& figures, std::vector<Choice>& choices) {
  const plan::MotorGroup& group = plan.motors[g];
  const int first = group.strands.value;
  const int last = group.strands.given ? first
                   : group.hooks.given ? kMostStrands
                                       : kMostStrandsWithoutHooks;
  Diagnostics problems;
  bool any = false;
  for (int strands = first; strands <= last; strands += 2) {
    const plan::MotorGroup full = at_limit(group, s, strands);
    auto planned = plan_motor(plan, full, figures.density);
    if (!planned) {
      problems = planned.diagnostics();
      break;
    }
    Choice choice;
    choice.group = g;
    choice.strip = s;
    choice.planned = std::move(*planned);
    choice.energy = largest_energy(choice.planned);
    choice.wind_to_energy = planned_energy(choice.planned, choice.planned.wind_to);
    choice.motors = motors_from(plan, full, figures);
    const auto slack = records::slack(choice.planned);
    choices.push_back(std::move(choice));
    any = true;
    if (slack && *slack < Length{}) {
      break;
    }
  }
  return any ? Diagnostics{} : problems;
}

}  // namespace

std::vector<Choice> choices_for(const plan::Plan& plan, std::size_t group,
                                const std::vector<StripFigures>& strips, Diagnostics& problems) {
  std::vector<Choice> choices;
  Diagnostics none;
  for (std::size_t s = 0; s < plan.strips.size(); ++s) {
    if (plan.motors[group].strip_named && plan.motors[group].strip != s) {
      continue;
    }
    Diagnostics why = add_choices(plan, group, s, strips[s], choices);
    if (none.empty()) {
      none = std::move(why);
    }
  }
  if (choices.empty()) {
    append(problems, none);
  }
  return choices;
}

}  // namespace loopledger::calc
