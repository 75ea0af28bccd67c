// SPDX-License-Identifier: MIT
//
// The advice in words.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "calc/cranks.h"
#include "calc/curve.h"
#include "calc/weigh.h"
#include "cli/advice.h"

namespace loopledger::cli {
namespace {

using records::BreakInStep;
using records::Planned;
using records::State;

/// "wind 700 turns = 70 cranks or stop at 52.5 gf·cm (32–86)"
std::string winding_words(const Planned& p, const Advice& a, const calc::StepNow& now,
                          Units units) {
  const BreakInStep& step = now.step;
  std::string torque;
  if (step.stop_torque) {
    torque = shown(calc::stop_torque(p, step), units);
  }
  if (!step.turns) {
    return torque.empty() ? torque
                          : fmt::format("wind until {}, never past {}", torque,
                                        turns_and_cranks(a.do_not_pass, p.winder_ratio));
  }
  std::string out = "wind " + shown_at_most(*step.turns) + " turns";
  out += step.cranks && calc::has_cranks(p.winder_ratio) ? fmt::format(" = {} cranks", *step.cranks)
                                                         : "";
  out += now.held_back ? " (held back: more would pass \"do not pass\")" : "";
  return torque.empty() ? out : out + " or stop at " + torque;
}

std::string step_words(const Planned& p, const Advice& a, Units units) {
  const NextStep& next = *a.step;
  const calc::StepNow now = step_now_of(p, a, next.index);
  const BreakInStep& step = now.step;
  std::string out = fmt::format("break-in step {} of {}", next.index + 1, p.break_in.size());
  out += step.repeat > 1 ? fmt::format(" (time {} of {})", next.time, step.repeat) : "";
  const char* comma = ": ";
  const auto add = [&](const std::string& part) {
    out += part.empty() ? "" : comma + part;
    comma = part.empty() ? comma : ", ";
  };
  add(printable(step.note));
  add(step.stretch ? "stretch to " + shown(*step.stretch, units) : "");
  add(winding_words(p, a, now, units));
  add(step.hold ? "hold " + shown(*step.hold) : "");
  add(step.rest ? "rest " + shown(*step.rest) : "");
  return out;
}

std::string days_or_hours(Duration time) {
  constexpr double kDay = 86400;
  const double days = std::floor(time.in_s() / kDay);
  return days >= 2 ? fmt::format("{} days", days)
                   : shown(Duration::min(std::floor(time.in_s() / 60)));
}

std::string counted(int n, const char* what) {
  return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

std::string best_words(const Advice& a, Units units) {
  std::string out = "best " + rounded(a.known.best_turns->count(), 6) + " turns";
  out += a.known.best_torque ? " at " + shown(*a.known.best_torque, units) : "";
  out += a.known.best_at ? " on " + iso(date_of(*a.known.best_at)) : "";
  out += a.known.best_temperature ? ", " + shown(*a.known.best_temperature, units) : "";
  return out;
}

std::string temperature_words(const Advice& a, const Today& today, Units units) {
  const std::string now = shown(*today.temperature, units);
  if (!a.known.best_temperature) {
    return fmt::format("today {}: no {}; colder rubber gives {} % less a °C", now,
                       a.known.best_turns ? "temperature was logged with its best winding"
                                          : "winding was logged yet",
                       calc::kEnergyPerDegree * 100);
  }
  const Share change = calc::energy_change(*a.known.best_temperature, *today.temperature);
  const double percent = std::fabs(change.in_percent());
  if (percent < 0.5) {
    return fmt::format("today {}: as warm as at its best winding", now);
  }
  const bool far = calc::far_apart(*a.known.best_temperature, *today.temperature);
  return fmt::format("today {}, {} at its best winding: about {:.0f} % {} energy (estimate{})", now,
                     shown(*a.known.best_temperature, units), percent,
                     change < Share{} ? "less" : "more",
                     !far               ? ""
                     : change < Share{} ? "; so far off nobody measured: cold rubber is stiff, "
                                          "wind less and slowly"
                                        : "; so far off nobody measured: feel for it as you wind");
}

/// What is left of the rest that the step before asks for; nothing under a minute.
std::optional<Duration> rest_left(const Planned& p, const Advice& a, const Today& today) {
  const auto rest = rested(a, today);
  if (!rest || !a.step || (a.step->index == 0 && a.step->time == 1)) {
    return std::nullopt;
  }
  const BreakInStep& before = p.break_in[a.step->time > 1 ? a.step->index : a.step->index - 1];
  const Duration left = before.rest.value_or(Duration{}) - *rest;
  return left >= Duration::min(1) ? std::optional(left) : std::nullopt;
}

}  // namespace

std::string set_words(const Advice& a) {
  constexpr double kReadsZero = 0.0005;  // of the loop: shown as 0.0 %
  const double growth = a.growth->as_ratio();
  const std::string percent = fixed(a.growth->in_percent(), 1);
  if (growth <= -kReadsZero) {
    return fmt::format("set {} %: shorter than as {}, measure again", percent,
                       a.tied_logged ? "tied" : "planned");
  }
  const std::string out = fmt::format("set +{} %", fixed(std::max(0.0, growth) * 100, 1));
  return growth <= calc::kSetAtOnce
             ? out
             : fmt::format("{}: more than published, +{:.0f} % at once and +{:.0f} % the next day",
                           out, calc::kSetAtOnce * 100, calc::kSetNextDay * 100);
}

calc::StepNow step_now_of(const Planned& p, const Advice& a, std::size_t index) {
  return calc::step_now(p, p.break_in[index], a.loop_as_tied, a.largest);
}

std::string next_step(const records::Record& record, const Advice& a, Units units) {
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
    case State::broken_in:
    case State::flown:
      if (a.step) {
        return step_words(record.planned, a, units);
      }
      if (a.state == State::tied) {
        return "break it in and log each step: break_in";
      }
      return fmt::format("wind to {}, do not pass {}",
                         turns_and_cranks(a.wind_to, record.planned.winder_ratio),
                         shown_at_most(a.do_not_pass));
    case State::retired:
      break;
  }
  return "nothing: it is retired";
}

std::optional<Duration> rested(const Advice& advice, const Today& today) {
  if (!today.now || !advice.known.worked_at || *today.now < *advice.known.worked_at) {
    return std::nullopt;
  }
  return Duration::s(static_cast<double>(today.now->seconds - advice.known.worked_at->seconds));
}

std::vector<std::string> today_lines(const records::Record& record, const Advice& a,
                                     const Today& today, Units units) {
  std::vector<std::string> lines;
  if (a.known.best_turns) {
    lines.push_back(best_words(a, units));
  }
  std::string life;
  const auto add = [&life](const std::string& part) { life += (life.empty() ? "" : ", ") + part; };
  if (a.known.windings > 0) {
    add(counted(a.known.windings, "winding") + fmt::format(" ({} full)", a.full_winds));
  }
  if (a.known.flights > 0) {
    add(counted(a.known.flights, "flight"));
  }
  if (const auto rest = rested(a, today)) {
    add(*rest < Duration::min(1) ? "wound just now" : "rested " + days_or_hours(*rest));
  }
  if (a.growth) {
    add(set_words(a));
  }
  if (!life.empty()) {
    lines.push_back(life);
  }
  if (const auto more = rest_left(record.planned, a, today)) {
    lines.push_back(fmt::format("rest {} more before that step", days_or_hours(*more)));
  }
  if (a.state == State::retired) {
    return lines;  // nothing is wound and launched any more
  }
  for (std::string& line : launch_lines(record, a, today, units)) {
    lines.push_back(std::move(line));
  }
  if (today.temperature) {
    lines.push_back(temperature_words(a, today, units));
  }
  return lines;
}

}  // namespace loopledger::cli
