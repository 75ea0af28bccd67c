// SPDX-License-Identifier: MIT
#include "motor/card_motor.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/text.h"
#include "calc/ahead.h"
#include "calc/curve.h"
#include "calc/unwinding.h"
#include "calc/weigh.h"
#include "motor/advice.h"
#include "motor/words.h"

namespace loopledger::motor {
namespace {

using motor::State;
using records::Record;

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

void add_curve(motor::CardMotor& card, const Record& record, const motor::Now& a, Units units) {
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
  if (a.backed_off && launch) {
    const Torque torque = launch->curve.torque_at(*a.backed_off);
    card.launch = motor::CardLaunch{*a.backed_off, torque,
                                    std::max(a.wind_to - card.curve->turns_at(torque), Turns{})};
  }
}

void add_points(motor::CardMotor& card, const motor::Now& now) {
  const auto& strains = now.life().strains;
  std::ptrdiff_t windings = 0;
  for (auto s = strains.rbegin(); s != strains.rend() && windings < kWindingsDrawn; ++s) {
    if (s->entry->kind != records::Kind::wound) {
      continue;
    }
    ++windings;
    for (const calc::TorquePoint& at : calc::points_read(*s->entry)) {
      card.points.push_back({at, now.own_curve && now.own_curve->key == s->entry->key});
    }
  }
}

/// How the newest reading of the scale was judged.
std::optional<calc::Judgement> judged(const Record& record, const motor::Readings& read) {
  for (const Stage stage : {Stage::finished, Stage::tied, Stage::washed}) {
    if (read.of(stage)) {
      return calc::judge(record.planned, stage, *read.of(stage), read.together());
    }
  }
  return std::nullopt;
}

void add_notes(motor::CardMotor& card, const Record& record, const motor::Now& a,
               const Today& today, Units units) {
  if (a.has_damaged_head()) {
    card.notes.emplace_back(kPlannedEdited);
  } else if (a.is_shaky()) {
    card.notes.emplace_back("A line of its record is damaged or changed by hand: see `show`.");
  }
  if (a.beyond) {
    card.notes.push_back(
        fmt::format("Once wound to {} turns, past “do not pass”: a slip of the pen or a lucky "
                    "escape. Nothing here goes by it.",
                    rounded(a.beyond->turns.count(), 6)));
  }
  if (card.mark.empty() && (a.step || a.state == State::planned || a.state == State::tied)) {
    card.before = "First: " + next_step(record, a, today, units) + ".";
  }
  for (const std::string& line : part_and_hooks(record.planned, units)) {
    card.notes.push_back(upper_ascii(line.substr(0, 1)) + line.substr(1) + ".");
  }
  if (a.best && a.best->temperature) {
    card.notes.push_back(
        fmt::format("Its best winding was at {}; colder rubber returns about {} % less energy a °C "
                    "(estimate).",
                    shown(*a.best->temperature, units), calc::kEnergyPerDegree * 100));
  }
}

}  // namespace

motor::CardMotor card_motor(const Record& record, const Today& today, Units units) {
  const records::Planned& p = record.planned;
  const motor::Now a = motor::now_of(record);
  motor::CardMotor card;
  card.id = record.id;
  card.state = spoken(a.state);
  card.retired = a.state == State::retired;
  card.purpose = p.purpose;
  card.owner = p.owner;
  card.made_of = strip_words(p, units);
  card.loop = a.loop;
  card.loop_is = a.loop_is;
  card.best_turns = a.best ? std::optional(a.best->turns) : std::nullopt;
  card.best_torque = a.best ? a.best->torque : std::nullopt;
  card.windings = a.windings;
  card.full_winds = a.full_winds;
  card.flights = a.flights;
  card.last = a.last ? iso(*a.last) : std::string();
  card.winder_ratio = today.winder_ratio;
  card.mark = mark_words(a);
  if (card.retired) {
    return card;
  }
  card.wind_to = a.wind_to;
  card.largest = a.largest;
  if (card.mark.empty() && a.wind_to >= Turns::of(1) && a.largest.low > Turns{} &&
      p.torque_max.value > Torque{}) {
    add_curve(card, record, a, units);
    add_points(card, a);
  }
  card.oil_counts = p.rule ? std::optional(p.rule->counts.lubricant) : std::nullopt;
  if (a.state != State::planned) {
    card.oil = calc::oil_again(p, rubber_of(record, a), judged(record, a.read));
  }
  add_notes(card, record, a, today, units);
  return card;
}

}  // namespace loopledger::motor
