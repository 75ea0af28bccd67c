// SPDX-License-Identifier: MIT
#include "calc/plan_motor.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calc/break_in.h"
#include "calc/linear_density.h"
#include "calc/turns_torque.h"
#include "calc/weigh.h"

namespace loopledger::calc {
namespace {

using plan::MotorGroup;
using plan::Plan;
using records::Planned;

void take_strip(Planned& p, const plan::Strip& strip, const Uncertain<LinearDensity>& density) {
  p.strip = strip.name;
  p.lot = strip.lot;
  if (strip.width.given) {
    p.width = strip.width.value;
  }
  p.linear_density = density;
  p.density = strip.density.value;
  p.talc = strip.talc.value;
  p.turns_factor_fitted = strip.turns_factor.given && strip.turns_factor.value.u > 0;
  p.turns_factor = strip.turns_factor.given ? strip.turns_factor.value.value : kTurnsFactor;
  p.turns_factor_u =
      p.turns_factor_fitted ? strip.turns_factor.value.u / p.turns_factor : kTurnsFactorU;
  const auto& torque = strip.torque_factor;
  p.torque_factor_given = torque.given;
  p.torque_factor = torque.given ? torque.value.value : kTorqueFactor;
  p.torque_factor_u = torque.given && torque.value.u.in_si() > 0 ? torque.value.u / p.torque_factor
                                                                 : kTorqueFactorU;
}

void take_parts(Planned& p, const Plan& plan, const MotorGroup& group) {
  const Mass u_scale = scale_u(plan.bench.scale_step.value, plan.bench.scale_error.value);
  if (group.rings) {
    const plan::Rings& rings = plan.rings[*group.rings];
    const double each = rings.each.value;
    const double weighed = rings.weighed.value;
    p.ring = rings.name;
    p.ring_count = rings.each.value;
    // u^2 = (each u_scale / weighed)^2 + each spread^2: the scale's part is common to all rings.
    p.rings = {rings.mass.value / weighed * each,
               Mass::si(std::hypot(each * u_scale.in_si() / weighed,
                                   std::sqrt(each) * rings.spread.value.in_si()))};
  }
  if (group.lubricant) {
    const plan::Lubricant& lubricant = plan.lubricants[*group.lubricant];
    p.lubricant = lubricant.name;
    p.uptake = lubricant.uptake.value;
    p.left = lubricant.left.value;
  }
  if (group.adhesive) {
    p.adhesive = plan.adhesives[*group.adhesive].name;
    p.adhesive_mass = plan.adhesives[*group.adhesive].mass.value;
  }
}

records::PlannedRule planned_rule(const plan::Rule& rule) {
  return {rule.name, rule.limit.value, rule.counts.value, rule.weighed.value,
          rule.official_error.value};
}

void take_rule(Planned& p, const Plan& plan, const MotorGroup& group) {
  // A part motor stands for its full motor on a low ceiling; no limit applies to it [part].
  if (!group.rule || group.part.given) {
    return;
  }
  p.rule = planned_rule(plan.rules[*group.rule]);
}

Planned start(const Plan& plan, const MotorGroup& group, const Uncertain<LinearDensity>& density) {
  Planned p;
  p.title = plan.title;
  if (plan.date.given) {
    p.date = plan.date.value;
  }
  p.purpose = group.purpose;
  p.owner = group.owner;
  p.strands = group.strands.value;
  p.knot = group.knot.value;
  p.tails = group.tails.value;
  p.allowance = group.allowance.value;
  p.scale_step = plan.bench.scale_step.value;
  p.scale_error = plan.bench.scale_error.value;
  p.ruler_step = plan.bench.ruler_step.value;
  p.confidence = plan.bench.confidence.value;
  p.winder_ratio = plan.bench.winder_ratio.value;
  p.window = group.window.value;
  if (group.hooks.given) {
    p.hooks = group.hooks.value;
  }
  take_strip(p, plan.strips[group.strip], density);
  take_parts(p, plan, group);
  return p;
}

/// The aim of the full motor. With a limit it comes from the windows under the rule.
Diagnostics set_aim(Planned& p, const Plan& plan, const MotorGroup& group) {
  p.loop_given = group.loop.given;
  if (group.mass_is_limit) {
    p.aim_is_limit = true;
    Planned full = p;
    full.rule = planned_rule(plan.rules[*group.rule]);
    Diagnostics problems = fill_windows(full);
    for (Diagnostic& d : problems) {
      d.place = group.mass.place;
    }
    p.aim = full.aim;
    return problems;
  }
  if (group.mass.given) {
    p.aim = group.mass.value;
  } else {
    p.aim = p.linear_density.value * (group.loop.value * p.strands + p.knot);
  }
  return {};
}

/// Both mass and loop given: the strip is slit to the width that has the linear density it takes.
Diagnostics slit(Planned& p, const MotorGroup& group) {
  const LinearDensity wanted = p.aim / (group.loop.value * p.strands + p.knot);
  const double share = wanted / p.linear_density.value;
  if (!p.width) {
    return {
        error("slit-width",
              fmt::format("mass and loop are both given, so strip \"{}\" has to be slit, but its "
                          "width is not known",
                          p.strip),
              "give the strip's width, or only one of mass and loop", group.loop.place)};
  }
  constexpr double kSameWidth = 1e-9;
  if (share > 1 + kSameWidth) {
    return {
        error("slit-width",
              fmt::format("a loop of {} with {} needs strip {} wide, and strip \"{}\" is only {}: "
                          "{} short",
                          exact(group.loop.value), exact(p.aim), exact(*p.width * share), p.strip,
                          exact(*p.width), exact(*p.width * (share - 1))),
              "take a wider strip, a longer loop, or more strands", group.loop.place)};
  }
  p.slit = share < 1 - kSameWidth;
  p.width = *p.width * share;
  p.linear_density = {wanted, p.linear_density.u * share};
  return {};
}

/// Strip that stays, loop, and strip to cut, for the full motor.
Diagnostics set_lengths(Planned& p, const MotorGroup& group) {
  if (group.loop.given) {
    if (group.mass.given || group.mass_is_limit) {
      if (Diagnostics problems = slit(p, group); !problems.empty()) {
        return problems;
      }
    }
    p.loop = group.loop.value;
    p.stays = p.loop * p.strands + p.knot;
    return {};
  }
  p.stays = p.aim / p.linear_density.value;
  p.loop = (p.stays - p.knot) / p.strands;
  if (p.loop <= Length{}) {
    return {
        error("loop-none",
              fmt::format("{} of this strip is {} long, and the knot alone takes {}: no loop is "
                          "left ({} short)",
                          exact(p.aim), exact(p.stays), exact(p.knot), exact(p.knot - p.stays)),
              "check the mass, the strip's linear density and the knot", group.place)};
  }
  return {};
}

void make_part(Planned& p, const MotorGroup& group) {
  const double f = group.part.value;
  const Mass full = p.aim;
  p.part = f;
  p.loop = p.loop * f;
  p.stays = p.loop * p.strands + p.knot;
  p.aim = p.linear_density.value * p.stays;
  p.aim_is_limit = false;
  p.ballast = full - p.aim;
  if (p.hooks) {
    p.spacer = *p.hooks * (1 - f);
  }
}

/// How well the strip that stays is known, and the default allowance, which covers it.
void set_cut_interval(Planned& p, const Plan& plan, const MotorGroup& group) {
  if (!p.loop_given) {
    const Length half =
        strip_half_width(plan.strips[group.strip], plan.bench, p.linear_density, p.stays);
    p.cut_u = half / coverage_95();
    if (!group.allowance.given) {
      constexpr double kWhole = 1e-9;  // mm: no further millimetre for a rounding error
      p.allowance = std::max(group.allowance.value, Length::mm(std::ceil(half.in_mm() - kWhole)));
    }
  }
}

Diagnostics set_windows(Planned& p, const Plan& plan, const MotorGroup& group) {
  Diagnostics problems = fill_windows(p);
  for (Diagnostic& d : problems) {
    d.place = group.window.given          ? group.window.place
              : group.mass.place.line > 0 ? group.mass.place
                                          : group.place;
  }
  if (has_errors(problems)) {
    return problems;
  }
  const Mass upper = p.rule && p.aim_is_limit ? p.aim + p.window / 2 : Mass{};
  const Mass washed_low = washed_low_unrounded(p, upper);
  auto low = as_cut_low(p, washed_low);
  if (!low) {
    append(problems, low.diagnostics());
    return problems;
  }
  p.windows.of(Stage::as_cut).low = *low;
  set_cut_interval(p, plan, group);
  const double talc_stays = 1 - p.talc.value.as_ratio();
  const Length at_low = *low * talc_stays / p.linear_density.value;
  p.cut = std::max(p.stays + p.tails + p.allowance, at_low);
  p.windows.about = p.linear_density.value * p.cut / talc_stays;
  const records::Window& washed = p.windows.of(Stage::washed);
  if (p.rule && p.aim > *washed.high) {
    problems.push_back(
        warning("aim-over",
                fmt::format("the aim of {} is over the washed window's upper end {} under rule "
                            "\"{}\"",
                            exact(p.aim), shown(*washed.high, p.scale_step), p.rule->name),
                "a smaller mass or loop, or mass = \"limit\"", group.place));
  }
  return problems;
}

void set_turns_and_torque(Planned& p) {
  const double u_lambda = p.linear_density.u / p.linear_density.value;
  p.section = p.linear_density.value / p.density * p.strands;
  const Factor<double> k_n{p.turns_factor, p.turns_factor_u};
  const Factor<Pressure> k_q{p.torque_factor, p.torque_factor_u};
  p.turns_max = largest_turns(k_n, p.loop, p.section, u_lambda);
  p.torque_max = largest_torque(k_q, p.section, u_lambda);
  p.wind_to = wind_to(p.turns_max, k_n, u_lambda, p.turns_factor_fitted);
}

}  // namespace

Result<Planned> plan_motor(const Plan& plan, const MotorGroup& group,
                           const Uncertain<LinearDensity>& density) {
  Planned p = start(plan, group, density);
  Diagnostics problems = set_aim(p, plan, group);
  take_rule(p, plan, group);
  if (has_errors(problems)) {
    return problems;
  }
  append(problems, set_lengths(p, group));
  if (has_errors(problems)) {
    return problems;
  }
  if (group.part.given) {
    make_part(p, group);
  }
  append(problems, set_windows(p, plan, group));
  if (has_errors(problems)) {
    return problems;
  }
  set_turns_and_torque(p);
  if (group.recipe) {
    p.recipe = plan.recipes[*group.recipe].name;
    append(problems, set_break_in(p, plan.recipes[*group.recipe], group.stem.value));
    if (has_errors(problems)) {
      return problems;
    }
  }
  return {std::move(p), std::move(problems)};
}

}  // namespace loopledger::calc
