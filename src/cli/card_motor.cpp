// SPDX-License-Identifier: MIT
#include "cli/card_motor.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/text.h"
#include "calc/ahead.h"
#include "calc/curve.h"
#include "calc/unwinding.h"
#include "calc/weigh.h"
#include "cli/advice.h"
#include "cli/list_rows.h"
#include "cli/record_text.h"
#include "cli/record_view.h"
#include "records/state.h"

namespace loopledger::cli {
namespace {

using records::Record;
using records::State;

constexpr std::ptrdiff_t kWindingsDrawn = 8;  // the newest: more marks hide the curve

/// A reading to tell the torque at "wind to" from, and what it is in words.
struct ReadBefore {
  calc::TorquePoint at;
  std::string words;
};

std::optional<ReadBefore> read_before(const std::optional<LaunchCurve>& launch, Turns wind_to,
                                      Units units) {
  if (!launch || launch->curve.top_turns() < kTellsOfWindTo * wind_to) {
    return std::nullopt;
  }
  const calc::TorqueCurve& curve = launch->curve;
  if (launch->own && !launch->own->unwinding && wind_to <= curve.top_turns()) {
    return ReadBefore{{wind_to, curve.torque_at(wind_to)}, "from what it read while winding"};
  }
  return ReadBefore{{curve.top_turns(), curve.top_torque()},
                    fmt::format("from {} read at {} turns", shown(curve.top_torque(), units),
                                rounded(curve.top_turns().count(), 6))};
}

void add_curve(page::CardMotor& card, const Record& record, const Advice& a, Units units) {
  const records::Planned& p = record.planned;
  const auto launch = launch_curve(record, a);
  if (const auto before = read_before(launch, a.wind_to, units)) {
    card.expected = calc::expected_torque(a.wind_to, a.largest, before->at);
    card.expected_from = before->words;
  } else {
    card.expected = calc::expected_torque(a.wind_to, a.largest, p.torque_max);
    card.expected_from = fmt::format(
        "from its section, largest torque {}; it reads higher while "
        "winding",
        shown(p.torque_max, units));
  }
  const bool read = launch && (launch->own || read_before(launch, a.wind_to, units));
  const auto top =
      read ? std::optional(calc::TorquePoint{a.wind_to, card.expected.value}) : std::nullopt;
  card.curve = calc::unwinding_curve(a.largest, p.torque_max, a.wind_to, top,
                                     launch ? launch->own : std::nullopt);
  card.curve_is = launch && launch->own ? curve_words(*launch->own)
                                        : "torque curve: the default shape, an estimate";
  if (a.known.backed_off && launch) {
    const Torque torque = launch->curve.torque_at(*a.known.backed_off);
    card.launch = page::CardLaunch{*a.known.backed_off, torque,
                                   std::max(a.wind_to - card.curve->turns_at(torque), Turns{})};
  }
}

void add_points(page::CardMotor& card, const Record& record) {
  const auto life = records::this_life(record.entries);
  const auto own = calc::own_curve(life);
  std::ptrdiff_t windings = 0;
  for (auto e = life.rbegin(); e != life.rend() && windings < kWindingsDrawn; ++e) {
    if ((*e)->kind != records::Kind::wound) {
      continue;
    }
    ++windings;
    for (const calc::TorquePoint& at : calc::points_read(**e)) {
      card.points.push_back({at, own && own->key == (*e)->key});
    }
  }
}

/// How the newest reading of the scale was judged.
std::optional<calc::Judgement> judged(const Record& record, const records::Known& known) {
  for (const auto& [stage, reading] :
       {std::pair{Stage::finished, known.finished}, std::pair{Stage::tied, known.tied},
        std::pair{Stage::washed, known.washed}}) {
    if (reading) {
      return calc::judge(record.planned, stage, *reading, {known.washed, known.tied, {}});
    }
  }
  return std::nullopt;
}

void add_notes(page::CardMotor& card, const Record& record, const Advice& a, Units units) {
  if (record.planned_edited) {
    card.notes.emplace_back(kPlannedEdited);
  }
  if (a.step || a.state == State::planned || a.state == State::tied) {
    card.before = "First: " + next_step(record, a, units) + ".";
  }
  for (const std::string& line : part_and_hooks(record.planned, units)) {
    card.notes.push_back(upper_ascii(line.substr(0, 1)) + line.substr(1) + ".");
  }
  if (a.known.best_temperature) {
    card.notes.push_back(
        fmt::format("Its best winding was at {}; colder rubber returns about {} % less energy a °C "
                    "(estimate).",
                    shown(*a.known.best_temperature, units), calc::kEnergyPerDegree * 100));
  }
}

}  // namespace

page::CardMotor card_motor(const Record& record, Units units) {
  const records::Planned& p = record.planned;
  const Advice a = advice_for(record);
  page::CardMotor card;
  card.id = record.id;
  card.state = spoken(a.state);
  card.retired = a.state == State::retired;
  card.purpose = p.purpose;
  card.owner = p.owner;
  card.made_of = strip_words(p, units);
  card.loop = a.loop;
  card.loop_is = records::loop_is(a.known);
  card.best_turns = a.known.best_turns;
  card.best_torque = a.known.best_torque;
  card.windings = a.known.windings;
  card.full_winds = a.full_winds;
  card.flights = a.known.flights;
  card.last = last_date(record);
  card.winder_ratio = p.winder_ratio;
  if (card.retired) {
    return card;
  }
  card.wind_to = a.wind_to;
  card.largest = a.largest;
  if (a.wind_to >= Turns::of(1) && a.largest.low > Turns{} && p.torque_max.value > Torque{}) {
    add_curve(card, record, a, units);
    add_points(card, record);
  }
  card.oil_counts = p.rule ? std::optional(p.rule->counts.lubricant) : std::nullopt;
  if (a.state != State::planned) {
    card.oil = calc::oil_again(p, rubber_of(record, a), judged(record, a.known));
  }
  add_notes(card, record, a, units);
  return card;
}

}  // namespace loopledger::cli
