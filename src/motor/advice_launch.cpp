// SPDX-License-Identifier: MIT
//
// Advice on the launch: how far to back off, what is left then, and the energy.
#include <fmt/format.h>

#include <algorithm>

#include "calc/curve.h"
#include "calc/energy.h"
#include "calc/unwinding.h"
#include "calc/weigh.h"
#include "motor/advice.h"
#include "motor/crank_words.h"
#include "records/fields.h"

namespace loopledger::motor {
namespace {

std::string point_words(Turns turns, Torque torque, Units units) {
  return fmt::format("{} turns at {}", rounded(turns.count(), 6), shown(torque, units));
}

std::string percent_words(Share share) { return fmt::format("{:.0f} %", share.in_percent()); }

std::string last_launch_words(Turns left, const std::optional<LaunchCurve>& launch, Units units) {
  std::string out = fmt::format("last launch with {} turns left in", rounded(left.count(), 6));
  if (launch && left <= launch->curve.top_turns()) {
    out += fmt::format(", about {} (estimate)", shown(launch->curve.torque_at(left), units));
  }
  return out;
}

/// "102 turns = 7 cranks": nearest whole ones, for here neither side is the safe one.
std::string let_out_turns(Turns out, double ratio) {
  return fmt::format("{:.0f} turns", out.count()) + as_nearest_cranks(out, ratio);
}

std::string back_off_words(const LaunchCurve& launch, const Today& today, Units units) {
  const calc::TorqueCurve& curve = launch.curve;
  const std::string wanted = shown(*today.launch, units);
  const std::string from = point_words(curve.top_turns(), curve.top_torque(), units);
  const Turns out = calc::back_off(curve, *today.launch);
  if (*today.launch > curve.top_torque()) {
    return fmt::format("launch at {}: not reached, its best winding gave {}", wanted, from);
  }
  if (out.count() < 1) {
    return fmt::format("launch at {}: no turns to back off, its best winding gave {}", wanted,
                       from);
  }
  return fmt::format("launch at {}: from {} back off {}, {} of the energy (estimate)", wanted, from,
                     let_out_turns(out, today.winder_ratio),
                     percent_words(calc::let_out(curve, out).lost));
}

std::string let_out_words(const LaunchCurve& launch, const Today& today, Units units) {
  const calc::TorqueCurve& curve = launch.curve;
  if (*today.let_out >= curve.top_turns()) {
    return fmt::format("backing off {} turns leaves nothing of {}",
                       rounded(today.let_out->count(), 6),
                       point_words(curve.top_turns(), curve.top_torque(), units));
  }
  const calc::BackedOff left = calc::let_out(curve, *today.let_out);
  return fmt::format("back off {}: {} left at {}, {} of the energy gone (estimate)",
                     let_out_turns(*today.let_out, today.winder_ratio),
                     rounded(left.turns.count(), 6), shown(left.torque, units),
                     percent_words(left.lost));
}

std::string energy_words(const records::Record& record, const motor::Now& now,
                         const LaunchCurve& launch) {
  const calc::TorqueCurve& full = launch.full;
  const SpecificEnergy specific = full.energy_below(full.top_turns()) / rubber_of(record, now);
  const calc::GoodShare good = calc::share_of_good(specific);
  return fmt::format(
      "energy from {} turns {} J; from its largest {} it would be {} J/g, {:.0f}–{:.0f} % of good "
      "rubber's (estimates)",
      rounded(launch.curve.top_turns().count(), 6),
      rounded(launch.curve.energy_below(launch.curve.top_turns()).in_joule(), 2),
      rounded(full.top_turns().count(), 4), rounded(specific.in_joule_per_g(), 2),
      good.of_best.in_percent(), good.of_least.in_percent());
}

}  // namespace

std::string curve_words(const calc::OwnCurve& own) {
  const auto at = records::moment_of_key(own.key);
  return fmt::format(
      "torque curve: its own, {} torques read while {}{}{}", own.points,
      own.unwinding ? "unwinding" : "winding", at ? " on " + iso(date_of(*at)) : std::string(),
      own.unwinding ? "" : "; unwinding reads less, so back off less than this says");
}

std::string turns_and_cranks(Turns turns, double ratio) {
  return shown_at_most(turns) + " turns" + as_cranks_at_most(turns, ratio);
}

Mass rubber_of(const records::Record& record, const motor::Now& now) {
  return now.rubber.value_or(record.planned.aim);
}

std::optional<LaunchCurve> launch_curve(const records::Record& record, const motor::Now& now) {
  const auto& own = now.own_curve;
  const Torque largest_torque = record.planned.torque_max.value;
  const bool known = now.best && now.best->torque;
  if (!known && !own) {
    return std::nullopt;
  }
  const auto top =
      known ? std::optional(calc::TorquePoint{now.best->turns, *now.best->torque}) : std::nullopt;
  const Turns from = top ? top->turns : own->curve.top_turns();
  if (now.largest.value <= Turns{} || largest_torque <= Torque{}) {
    // Figures that can't be read: what was read of it is all there is.
    auto curve = own ? own->curve : calc::TorqueCurve::by_default(top->turns, top->torque);
    return LaunchCurve{curve, curve, own};
  }
  const auto curve_from = [&](Turns turns) {
    return calc::unwinding_curve(now.largest, record.planned.torque_max, turns, top, own);
  };
  return LaunchCurve{curve_from(from), curve_from(std::max(from, now.largest.value)), own};
}

std::vector<std::string> launch_lines(const records::Record& record, const motor::Now& now,
                                      const Today& today, Units units) {
  std::vector<std::string> lines;
  const auto launch = launch_curve(record, now);
  if (now.backed_off) {
    lines.push_back(last_launch_words(*now.backed_off, launch, units));
  }
  if (!launch) {
    if (today.launch || today.let_out) {
      lines.push_back(fmt::format(
          "launch{}: log a winding with its torque, then how far to back off can be told",
          today.launch ? " at " + shown(*today.launch, units) : std::string()));
    }
    return lines;
  }
  if (today.launch) {
    lines.push_back(back_off_words(*launch, today, units));
  }
  if (today.let_out) {
    lines.push_back(let_out_words(*launch, today, units));
  }
  if (launch->own) {
    lines.push_back(curve_words(*launch->own));
  }
  lines.push_back(energy_words(record, now, *launch));
  return lines;
}

}  // namespace loopledger::motor
