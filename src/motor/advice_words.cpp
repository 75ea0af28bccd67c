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
#include "motor/advice.h"
#include "motor/crank_words.h"
#include "motor/words.h"
#include "records/fields.h"

namespace loopledger::motor {
namespace {

using records::BreakInStep;
using records::Planned;

/// "wind 700 turns = 70 cranks or stop at 52.5 gf·cm (32–86)"
std::string winding_words(const Planned& p, const motor::Now& a, const calc::StepNow& now,
                          double ratio, Units units) {
  const BreakInStep& step = now.step;
  std::string torque;
  if (step.stop_torque) {
    torque = shown(calc::stop_torque(p, step), units);
  }
  if (!step.turns) {
    return torque.empty() ? torque
                          : fmt::format("wind until {}, never past {}", torque,
                                        turns_and_cranks(a.do_not_pass, ratio));
  }
  std::string out = "wind " + turns_and_cranks(*step.turns, ratio);
  out += now.held_back ? " (held back: more would pass \"do not pass\")" : "";
  return torque.empty() ? out : out + " or stop at " + torque;
}

/// "1054 turns = 105 cranks"
std::string wind_to_words(const motor::Now& a, double ratio) {
  return shown_at_most(a.wind_to) + " turns" +
         as_cranks_to_wind_to(a.wind_to, a.do_not_pass, ratio);
}

/// "1126", or with the winder that the cranks are of: "1126 = 112 cranks (winder 10:1)"
std::string never_words(const motor::Now& a, double ratio) {
  const std::string text = shown_at_most(a.do_not_pass) + as_cranks_at_most(a.do_not_pass, ratio);
  return calc::has_cranks(ratio) ? text + fmt::format(" (winder {}:1)", rounded(ratio, 4)) : text;
}

std::string step_words(const Planned& p, const motor::Now& a, double ratio, Units units) {
  const motor::NextStep& next = *a.step;
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
  add(winding_words(p, a, now, ratio, units));
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

std::string best_words(const motor::Now& a, Units units) {
  const motor::Winding& best = *a.best;
  std::string out = "best " + rounded(best.turns.count(), 6) + " turns";
  out += best.torque ? " at " + shown(*best.torque, units) : "";
  out += best.at ? " on " + iso(date_of(*best.at)) : "";
  out += best.temperature ? ", " + shown(*best.temperature, units) : "";
  if (a.most->turns > best.turns) {
    out += fmt::format("; {} turns without a torque", rounded(a.most->turns.count(), 6));
  }
  return out;
}

std::string temperature_words(const motor::Now& a, const Today& today, Units units) {
  const std::string now = shown(*today.temperature, units);
  if (!a.best || !a.best->temperature) {
    return fmt::format(
        "today {}: no {}; colder rubber gives {} % less a °C", now,
        a.best ? "temperature was logged with its best winding" : "winding was logged yet",
        calc::kEnergyPerDegree * 100);
  }
  const Share change = calc::energy_change(*a.best->temperature, *today.temperature);
  const double percent = std::fabs(change.in_percent());
  if (percent < 0.5) {
    return fmt::format("today {}: as warm as at its best winding", now);
  }
  const bool far = calc::far_apart(*a.best->temperature, *today.temperature);
  return fmt::format("today {}, {} at its best winding: about {:.0f} % {} energy (estimate{})", now,
                     shown(*a.best->temperature, units), percent,
                     change < Share{} ? "less" : "more",
                     !far               ? ""
                     : change < Share{} ? "; so far off nobody measured: cold rubber is stiff, "
                                          "wind less and slowly"
                                        : "; so far off nobody measured: feel for it as you wind");
}

/// What is left of the rest that the step before asks for; nothing under a minute.
std::optional<Duration> rest_left(const Planned& p, const motor::Now& a, const Today& today) {
  const auto rest = rested(a, today);
  if (!rest || !a.step || (a.step->index == 0 && a.step->time == 1)) {
    return std::nullopt;
  }
  const BreakInStep& before = p.break_in[a.step->time > 1 ? a.step->index : a.step->index - 1];
  const Duration left = before.rest.value_or(Duration{}) - *rest;
  return left >= Duration::min(1) ? std::optional(left) : std::nullopt;
}

}  // namespace

std::vector<std::string> mark_lines(const motor::Now& a, Units units) {
  std::vector<std::string> lines;
  const auto when = [](const records::Entry& e) {
    const auto at = records::moment_of_key(e.key);
    return at ? readable(*at) : printable(shortened(e.key, 30));
  };
  if (a.loop_held) {
    lines.push_back(fmt::format(
        "a loop of {} is longer than its mass allows: turns go by {}; measure and weigh again",
        shown(a.loop_as_tied, units), shown(*a.loop_held, units)));
  }
  for (const motor::Marked& m : a.marked) {
    switch (m.mark) {
      case motor::Mark::head:
        break;  // said before all else
      case motor::Mark::torn:
        lines.emplace_back("the record ends in a torn line: what it said is lost");
        break;
      case motor::Mark::lost:
        lines.push_back(
            fmt::format("line {} is damaged and no entry any more: what it said is lost", m.line));
        break;
      case motor::Mark::unsound:
        lines.push_back(fmt::format("line {} is changed by hand or damaged and not relied on: {}",
                                    m.entry->line, in_words(*m.entry, units)));
        break;
      case motor::Mark::superseded:
        lines.push_back(fmt::format("corrected twice: \"{}\" of {} counts, \"{}\" of {} does not",
                                    in_words(*m.other, units), when(*m.other),
                                    in_words(*m.entry, units), when(*m.entry)));
        break;
      case motor::Mark::late:
        lines.push_back(fmt::format(
            "\"{}\" of {} lies before \"{}\" of {}, though its line stands behind it",
            in_words(*m.entry, units), when(*m.entry), in_words(*m.other, units), when(*m.other)));
        break;
      case motor::Mark::beyond:
        lines.push_back(
            fmt::format("\"{}\" of {} is past \"do not pass\" {}: a slip of the pen or a lucky "
                        "escape, nothing goes by it",
                        in_words(*m.entry, units), when(*m.entry), shown_at_most(a.do_not_pass)));
        break;
    }
  }
  return lines;
}

std::string mark_words(const motor::Now& a) {
  if (a.is_shaky()) {
    return "RECORD DAMAGED";
  }
  return a.may_be_over() ? "MAY HAVE BROKEN" : "";
}

std::string set_words(const motor::Now& a) {
  constexpr double kReadsZero = 0.0005;  // of the loop: shown as 0.0 %
  const double growth = a.growth->as_ratio();
  const std::string percent = fixed(a.growth->in_percent(), 1);
  if (growth <= -kReadsZero) {
    return fmt::format("set {} %: shorter than as {}, measure again", percent,
                       a.tied_measured ? "tied" : "planned");
  }
  const std::string out = fmt::format("set +{} %", fixed(std::max(0.0, growth) * 100, 1));
  return growth <= calc::kSetAtOnce
             ? out
             : fmt::format("{}: more than published, +{:.0f} % at once and +{:.0f} % the next day",
                           out, calc::kSetAtOnce * 100, calc::kSetNextDay * 100);
}

calc::StepNow step_now_of(const Planned& p, const motor::Now& a, std::size_t index) {
  return calc::step_now(p, p.break_in[index], a.loop_as_tied, a.largest);
}

std::string next_step(const records::Record& record, const motor::Now& a, const Today& today,
                      Units units) {
  if (a.may_be_over()) {
    return "look at it first: a line that can't be relied on says that it broke or was retired";
  }
  if (a.is_shaky() && a.state != State::retired) {
    return "mend the record first: what of it can't be relied on is told with it";
  }
  switch (a.state) {
    case State::planned:
      if (!a.read.washed) {
        return "cut it, wash it, let it dry, and log the reading: weighed washed";
      }
      return calc::judge(record.planned, Stage::washed, *a.read.washed).verdict ==
                     calc::Verdict::over
                 ? "it is over its window: trim it and weigh it again"
                 : "tie it and log the loop: tied";
    case State::tied:
    case State::broken_in:
    case State::flown:
      if (a.step) {
        return step_words(record.planned, a, today.winder_ratio, units);
      }
      if (a.state == State::tied) {
        return "break it in and log each step: break_in";
      }
      return fmt::format("wind to {}, do not pass {}", wind_to_words(a, today.winder_ratio),
                         never_words(a, today.winder_ratio));
    case State::retired:
      break;
  }
  return "nothing: it is retired";
}

std::optional<Duration> rested(const motor::Now& now, const Today& today) {
  if (!today.now || !now.worked_at || *today.now < *now.worked_at) {
    return std::nullopt;
  }
  return Duration::s(static_cast<double>(today.now->seconds - now.worked_at->seconds));
}

std::vector<std::string> today_lines(const records::Record& record, const motor::Now& a,
                                     const Today& today, Units units) {
  std::vector<std::string> lines = mark_lines(a, units);
  if (a.best) {
    lines.push_back(best_words(a, units));
  }
  std::string life;
  const auto add = [&life](const std::string& part) { life += (life.empty() ? "" : ", ") + part; };
  if (a.windings > 0) {
    add(how_many(static_cast<std::size_t>(a.windings), "winding") +
        fmt::format(" ({} full)", a.full_winds));
  }
  if (a.flights > 0) {
    add(how_many(static_cast<std::size_t>(a.flights), "flight"));
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

}  // namespace loopledger::motor
