// SPDX-License-Identifier: MIT
//
// Slips of the counter and of the torque meter.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/number_text.h"
#include "calc/break_in.h"
#include "calc/curve.h"
#include "motor/doubts_rules.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;

/// Below this share of the largest turns a torque says too little of itself. Common sense, no
/// source.
constexpr double kTorqueTells = 0.3;

std::string count(Turns turns) { return rounded(turns.count(), 6); }

/// What is wound to: a step of the recipe, else "wind to".
Turns aimed_at(const AskedEntry& a) {
  const auto& recipe = a.p().break_in;
  if (a.entry.kind == Kind::break_in && a.now.winding_step) {
    const int step = a.entry.step.value_or(static_cast<int>(a.now.winding_step->index) + 1);
    if (step >= 1 && static_cast<std::size_t>(step) <= recipe.size()) {
      const auto now = calc::step_now(a.p(), recipe[static_cast<std::size_t>(step) - 1],
                                      a.now.loop_as_tied, a.now.largest);
      return now.step.turns.value_or(a.now.wind_to);
    }
  }
  return a.now.wind_to;
}

void ask_past_all(const AskedEntry& a, Turns turns, double ratio) {
  const Turns high = a.now.largest.high;
  if (turns <= high) {
    return;
  }
  const std::string past =
      fmt::format("past the {} at which nearly all would have broken", shown_at_most(high));
  const Turns meant = ratio > 1 ? turns / ratio : turns;
  if (a.context.in_cranks && ratio > 1 && meant <= a.now.do_not_pass) {
    a.add(Slip::not_cranks, count(meant) + " cranks",
          fmt::format("are {} turns, {}: is it turns", count(turns), past), count(meant) + " turns",
          count(meant));
    return;
  }
  a.add(Slip::turns, count(turns) + " turns", "is " + past);
}

void ask_cranks(const AskedEntry& a, Turns turns, double ratio) {
  if (ratio <= 1 || a.context.in_cranks || a.entry.kind == Kind::broke) {
    return;
  }
  const Turns aim = aimed_at(a);
  const Turns meant = turns * ratio;
  if (turns > Turns{} && turns < aim * kFewTurns && meant >= aim * 0.5 &&
      meant <= a.now.do_not_pass) {
    a.add(Slip::cranks, count(turns) + " turns",
          fmt::format("is few: {} cranks of a winder of 1:{} are {}", count(turns),
                      rounded(ratio, 4), count(meant)),
          count(meant) + " turns", count(meant));
  }
}

/// A tenth or ten times of a torque in the words in which it was typed.
std::string moved_point(const AskedEntry& a, Torque torque, double times) {
  const std::string typed = typed_or(a.entry, "torque", {});
  const auto number = leading_number(typed);
  return number && !number->rest.empty()
             ? fmt::format("{} {}", rounded(number->value * times, 6), number->rest)
             : shown(torque * times, a.context.units);
}

/// The least that is expected at these turns; nothing where that can't be said.
Torque least_at(const AskedEntry& a, Turns turns) {
  if (turns < a.now.largest.value * kTorqueTells || a.now.largest.value <= Turns{}) {
    return Torque{};
  }
  if (a.now.best && a.now.best->torque && turns <= a.now.best->turns * 1.5) {
    // Half of what was read: days and meters differ, and winding reads higher. Common sense.
    const auto curve = calc::TorqueCurve::by_default(a.now.best->turns, *a.now.best->torque);
    return curve.torque_at(turns) * 0.5;
  }
  return calc::TorqueCurve::by_default(a.now.largest.value, a.p().torque_max.low).torque_at(turns);
}

void ask_one_torque(const AskedEntry& a, Torque torque, const std::optional<Turns>& turns) {
  const Torque most = a.p().torque_max.high;
  if (most <= Torque{}) {
    return;
  }
  const std::string typed = typed_or(a.entry, "torque", shown(torque, a.context.units));
  if (torque > most) {
    const std::string past =
        fmt::format("is past the {} that nearly none holds", shown(most, a.context.units));
    if (torque / 10 <= most && torque / 10 >= a.p().torque_max.low / 10) {
      const std::string likely = moved_point(a, torque, 0.1);
      a.add(Slip::ten_times, typed, past + ": ten times off", likely, likely);
    } else {
      a.add(Slip::torque, typed, past);
    }
    return;
  }
  const Torque least = turns ? least_at(a, *turns) : Torque{};
  if (torque > Torque{} && torque < least / 3 && torque * 10 >= least && torque * 10 <= most) {
    const std::string likely = moved_point(a, torque, 10);
    a.add(Slip::ten_times, typed,
          fmt::format("is little at {} turns: ten times off", count(*turns)), likely, likely);
  }
}

}  // namespace

void ask_turns(const AskedEntry& a) {
  const Entry& e = a.entry;
  const std::size_t steps = a.p().break_in.size();
  if (e.kind == Kind::break_in && e.step && steps > 0 && *e.step > static_cast<int>(steps)) {
    a.add(Slip::beyond, fmt::format("step {}", *e.step),
          fmt::format("is beyond the {} of this motor's break-in", steps));
  }
  if (!e.turns || (e.kind != Kind::wound && e.kind != Kind::break_in && e.kind != Kind::broke)) {
    return;
  }
  const double ratio = a.context.winder_ratio.value_or(a.p().winder_ratio);
  ask_past_all(a, *e.turns, ratio);
  ask_cranks(a, *e.turns, ratio);
  if (e.backed_off && *e.backed_off > *e.turns) {
    a.add(Slip::beyond, fmt::format("backed off to {} turns", count(*e.backed_off)),
          fmt::format("is more than the {} that were wound", count(*e.turns)));
  }
  const auto most = std::ranges::max_element(e.pairs, {}, &records::TurnsTorque::turns);
  if (most != e.pairs.end() && most->turns > *e.turns) {
    a.add(Slip::beyond, fmt::format("a pair at {} turns", count(most->turns)),
          fmt::format("is beyond the {} that were wound", count(*e.turns)));
  }
}

void ask_torque(const AskedEntry& a) {
  const Entry& e = a.entry;
  if (e.torque) {
    ask_one_torque(a, *e.torque, e.turns);
  }
  const auto most = std::ranges::max_element(e.pairs, {}, &records::TurnsTorque::torque);
  const Torque high = a.p().torque_max.high;
  if (most != e.pairs.end() && most->torque > high && high > Torque{}) {
    a.add(most->torque / 10 <= high ? Slip::ten_times : Slip::torque,
          "a pair's torque of " + shown(most->torque, a.context.units),
          fmt::format("is past the {} that nearly none holds", shown(high, a.context.units)));
  }
}

}  // namespace loopledger::motor
