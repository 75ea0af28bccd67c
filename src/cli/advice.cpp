// SPDX-License-Identifier: MIT
#include "cli/advice.h"

#include <fmt/format.h>

#include <algorithm>

#include "calc/turns_torque.h"
#include "calc/weigh.h"

namespace loopledger::cli {
namespace {

using records::Kind;
using records::State;

/// The loop as it was tied: logged, else as planned.
Length loop_as_tied(const records::Record& record) {
  Length loop = record.planned.loop;
  for (const records::Entry* const e : records::standing(record.entries)) {
    if (e->kind == Kind::tied && e->loop && !e->edited) {
      loop = *e->loop;
    }
  }
  return loop;
}

}  // namespace

Advice advice_for(const records::Record& record) {
  const records::Planned& p = record.planned;
  Advice a;
  a.state = records::state_of(record.entries);
  a.known = records::known_of(record.entries);
  a.loop = a.known.loop.value_or(p.loop);
  a.largest = p.turns_max;
  a.wind_to = p.wind_to;
  const double lambda = p.linear_density.value.in_si();
  if (a.known.loop_broken_in) {
    a.growth = Share::ratio(a.loop / loop_as_tied(record) - 1);
  }
  // The loop as it was measured, tied or broken in, moves the turns; until then it is as planned.
  if (a.known.loop && p.section > Area{} && lambda > 0) {
    const calc::Factor<double> k{p.turns_factor, p.turns_factor_u};
    const double u = p.linear_density.u.in_si() / lambda;
    a.largest = calc::largest_turns(k, a.loop, p.section, u);
    a.wind_to = calc::wind_to(a.largest, k, u, p.turns_factor_fitted);
  }
  a.do_not_pass = a.largest.low;
  return a;
}

std::string next_step(const records::Record& record, const Advice& a) {
  switch (a.state) {
    case State::planned:
      if (!a.known.washed) {
        return "cut it, wash it, let it dry, and log the reading: weighed washed";
      }
      return calc::judge(record.planned, Stage::washed, *a.known.washed).verdict ==
                     calc::Verdict::over
                 ? "it is over its window: trim it and weigh it again"
                 : "tie it and log the loop: tied";
    case State::tied:
      return "break it in and log each step: break_in";
    case State::broken_in:
    case State::flown:
      return fmt::format("wind to {} turns, do not pass {}", shown_at_most(a.wind_to),
                         shown_at_most(a.do_not_pass));
    case State::retired:
      break;
  }
  return "nothing: it is retired";
}

}  // namespace loopledger::cli
