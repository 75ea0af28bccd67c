// SPDX-License-Identifier: MIT
#include "cli/advice.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calc/turns_torque.h"
#include "calc/weigh.h"

namespace loopledger::cli {
namespace {

using records::Kind;

/// The loop as it was tied, if that was logged.
std::optional<Length> loop_as_tied(const records::Record& record) {
  std::optional<Length> loop;
  for (const records::Entry* const e : records::this_life(record.entries)) {
    if (e->kind == Kind::tied && e->loop) {
      loop = *e->loop;
    }
  }
  return loop;
}

int full_winds(const records::Record& record, Turns wind_to) {
  const auto entries = records::this_life(record.entries);
  return static_cast<int>(std::ranges::count_if(entries, [&](const records::Entry* e) {
    return e->kind == Kind::wound && e->turns && *e->turns >= kFullWind * wind_to;
  }));
}

}  // namespace

Advice advice_for(const records::Record& record) {
  const records::Planned& p = record.planned;
  Advice a;
  a.state = records::state_of(record.entries);
  a.known = records::known_of(record.entries);
  a.loop = a.known.loop.value_or(p.loop);
  const auto tied = loop_as_tied(record);
  a.tied_logged = tied.has_value();
  a.loop_as_tied = tied.value_or(p.loop);
  a.largest = p.turns_max;
  a.wind_to = p.wind_to;
  const double lambda = p.linear_density.value.in_si();
  if (a.known.loop_broken_in) {
    a.growth = Share::ratio(a.loop / a.loop_as_tied - 1);
  }
  // The loop as it was measured, tied or broken in, moves the turns; until then it is as planned.
  if (a.known.loop && p.section > Area{} && lambda > 0) {
    const calc::Factor<double> k{p.turns_factor, p.turns_factor_u};
    const double u = p.linear_density.u.in_si() / lambda;
    a.largest = calc::largest_turns(k, a.loop, p.section, u);
    a.wind_to = calc::wind_to(a.largest, k, u, p.turns_factor_fitted);
  }
  a.do_not_pass = a.largest.low;
  a.full_winds = full_winds(record, a.wind_to);
  a.step = next_of_recipe(record, false);
  return a;
}

std::optional<NextStep> next_of_recipe(const records::Record& record, bool with_turns) {
  const auto& steps = record.planned.break_in;
  if (steps.empty()) {
    return std::nullopt;
  }
  std::vector<int> done(steps.size(), 0);
  const auto next = [&] {
    std::size_t i = 0;
    while (i < steps.size() && done[i] >= steps[i].repeat) {
      ++i;
    }
    return i;
  };
  for (const records::Entry* const e : records::this_life(record.entries)) {
    if (e->kind == Kind::wound) {
      return std::nullopt;
    }
    if (e->kind != Kind::break_in) {
      continue;
    }
    const std::size_t at = e->step ? static_cast<std::size_t>(std::max(*e->step, 1) - 1) : next();
    if (at >= steps.size()) {
      continue;
    }
    for (std::size_t i = 0; i < at; ++i) {
      done[i] = std::max(done[i], steps[i].repeat);  // who is at step 3 has done with 1 and 2
    }
    ++done[at];
  }
  std::size_t i = next();
  while (with_turns && i < steps.size() && (!calc::winds(steps[i]) || done[i] >= steps[i].repeat)) {
    ++i;
  }
  return i < steps.size() ? std::optional(NextStep{i, done[i] + 1}) : std::nullopt;
}

}  // namespace loopledger::cli
