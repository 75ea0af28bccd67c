// SPDX-License-Identifier: MIT
#include "motor/random_life.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "calc/weigh.h"
#include "calc/work_out.h"
#include "records/fields.h"
#include "support/plan_text.h"

namespace loopledger::test {
namespace {

using records::Entry;
using records::Kind;
using records::Planned;
using records::Record;

// Invented nights. The first is the shortest plan that works.
const std::vector<std::string> kPlans{
    with_head("[[motors]]\nid = \"AB\"\nrule = \"club\"\nmass = \"limit\"\n"),
    with_head("[[motors]]\nid = \"LO\"\nloop = \"310 mm\"\nstrands = 4\n"),
    with_head("[[motors]]\nid = \"MA\"\nmass = \"2.4 g\"\ntails = \"20 mm\"\n"),
    R"(format = 1
bench = { scale_step = "2 mg", scale_error = "4 mg", ruler_step = "0.5 mm", winder_ratio = 15 }
units = "inch"
rules.hall = { limit = "1.8 g", counts = ["rubber", "lubricant", "rings"], weighed = "rested" }
rings.tube = { weighed = 10, mass = "60 mg", spread = "0.3 mg" }
lubricants.soap = { uptake = "1.2 % ± 0.4 %", left = "0.5 % ± 0.2 %" }
adhesives.dot = { mass = "1 mg ± 0.5 mg" }
recipes.slow = { steps = [{ stretch = 5.0, hold = "5 min" }, { turns = "40 %", repeat = 2 }, { turns = "60 %", torque = "75 %", repeat = 3 }] }
[strips.pale]
width = "3/32 in"
samples = [["0.5 m", "1.215 g"], ["0.8 m", "1.940 g"], ["1 m", "2.431 g"]]
turns_factor = "10.4 ± 0.4"
talc = "0.8 % ± 0.3 %"
[[motors]]
id = "IN"
rule = "hall"
rings = "tube"
lubricant = "soap"
adhesive = "dot"
recipe = "slow"
tails = "1/2 in"
mass = "limit"
)",
    R"(format = 1
bench = { scale_step = "1 mg", winder_ratio = 10 }
strips.wide = { width = "4 mm", thickness = "1.05 mm", turns_factor = "11.6 ± 0.25" }
rings.tube = { mass = "7 mg" }
recipes.once = { steps = [{ turns = "50 %" }, { stretch = 4.5 }] }
[[motors]]
id = "FI"
rings = "tube"
recipe = "once"
mass = "3.1 g"
part = 0.5
)"};

Planned planned_of(const std::string& text) {
  const auto plan = read(text);
  REQUIRE_MESSAGE(plan.ok(), said(plan.diagnostics()));
  const auto batch = calc::work_out(*plan);
  REQUIRE_MESSAGE(batch.ok(), said(batch.diagnostics()));
  return batch->motors.front().planned;
}

// Right, a little off, a slip, and what only damage could say.
const std::vector<double> kNear{1, 1, 0.999, 1.001, 0.995, 1.004, 0.99, 1.02, 0.97};
const std::vector<double> kOff{0.7, 0.84, 0.5, 1.06, 1.36, 1.11, 10, 0.1, 1000};

double factor(Draw& draw) { return draw.percent(75) ? draw.of(kNear) : draw.of(kOff); }

Mass reading(Draw& draw, const Planned& p, Stage stage) {
  const Mass aim = calc::reading_of(p, stage, p.aim);
  const Mass read = aim * factor(draw) + Mass::mg(draw.between(-4, 4));
  return std::max(calc::floor_to_step(read, p.scale_step), p.scale_step);
}

Length length(Draw& draw, Length about) {
  return Length::mm(std::max(1.0, std::round((about * factor(draw)).in_mm())));
}

Turns turns(Draw& draw, const Planned& p) {
  static const std::vector<double> kShares{0.3, 0.5,  0.7, 0.72, 0.75, 0.78, 0.8,
                                           0.8, 0.85, 0.9, 0.95, 1.05, 0.08, 8};
  return Turns::of(std::round(p.turns_max.value.count() * draw.of(kShares)));
}

Torque torque(Draw& draw, const Planned& p) { return p.torque_max.value * draw.between(0.1, 1.2); }

Stage stage(Draw& draw) { return kStages[draw.below(kStages.size())]; }

void fill_wound(Draw& draw, const Planned& p, Entry& e) {
  e.turns = turns(draw, p);
  if (draw.percent(55)) {
    e.torque = torque(draw, p);
  }
  if (draw.percent(25)) {
    double share = 1;
    while (share > 0.2) {
      e.pairs.push_back({*e.turns * share, torque(draw, p)});
      share -= draw.between(0.1, 0.4);
    }
  }
  if (draw.percent(20)) {
    e.end = draw.percent(40)   ? WindEnd::broke
            : draw.percent(50) ? WindEnd::solid
                               : WindEnd::stopped;
  }
  if (draw.percent(30)) {
    e.backed_off = *e.turns * draw.between(0.6, 1);
  }
  if (draw.percent(20)) {
    e.temperature = Temperature::deg_c(draw.between(-5, 35));
  }
}

void fill_break_in(Draw& draw, const Planned& p, Entry& e) {
  if (draw.percent(60)) {
    e.step = static_cast<int>(draw.below(5)) + 1;
  }
  if (draw.percent(30)) {
    e.loop_before = length(draw, p.loop);
  }
  if (draw.percent(60)) {
    e.loop_after = length(draw, p.loop * draw.between(1, 1.13));
  }
  if (draw.percent(40)) {
    e.turns = turns(draw, p);
  }
}

const std::vector<Kind> kKinds{Kind::weighed, Kind::weighed,  Kind::weighed,  Kind::tied,
                               Kind::tied,    Kind::tied,     Kind::wound,    Kind::wound,
                               Kind::wound,   Kind::break_in, Kind::break_in, Kind::flown,
                               Kind::broke,   Kind::retired,  Kind::labelled, Kind::note,
                               Kind::piece,   Kind::planned,  Kind::other};

Moment start() { return midnight_utc({2026, 2, 1}); }

/// A time behind the last one, mostly.
Moment next_time(Draw& draw, Moment last) {
  const auto seconds = static_cast<std::int64_t>(draw.below(200000)) + 1;
  return draw.percent(15)   ? last
         : draw.percent(12) ? Moment{last.seconds - 3 * seconds}
                            : Moment{last.seconds + seconds};
}

void correct_some(Draw& draw, const Planned& p, Entry& e, const std::vector<Entry>& before) {
  if (before.empty() || !draw.percent(35)) {
    return;
  }
  const std::size_t newest = before.size() - 1;
  const Entry& target =
      before[draw.percent(40) ? newest - std::min(newest, draw.below(3)) : draw.below(newest + 1)];
  if (draw.percent(40)) {
    e = random_entry(draw, p, Kind::note);
  } else if (draw.percent(80)) {
    e = random_entry(draw, p, target.kind);
  }
  e.corrects = draw.percent(6) ? key_at(midnight_utc({2026, 2, 4}), draw.below(3)) : target.key;
}

/// What a merge and a careless hand leave behind.
void disturb(Draw& draw, std::vector<Entry>& entries) {
  const auto any = [&]() -> Entry& { return entries[draw.below(entries.size())]; };
  if (draw.percent(10)) {
    std::swap(any(), any());
  }
  if (draw.percent(5)) {
    Entry moved = any();
    std::erase_if(entries, [&](const Entry& e) { return e.key == moved.key; });
    entries.insert(entries.begin() + static_cast<std::ptrdiff_t>(draw.below(entries.size() + 1)),
                   std::move(moved));
  }
  if (draw.percent(5)) {
    any().corrects = any().key;  // to itself, or the other way round as well
  }
  if (draw.percent(4)) {
    Entry twin = any();
    twin.kind = draw.of(kKinds);
    twin.edited = true;  // as a record is read: a second line of a key is not sound
    entries.push_back(std::move(twin));
  }
}

}  // namespace

const std::vector<Planned>& planned_motors() {
  static const std::vector<Planned> kMotors = [] {
    std::vector<Planned> motors;
    std::ranges::transform(kPlans, std::back_inserter(motors), planned_of);
    return motors;
  }();
  return kMotors;
}

std::string key_at(Moment at, std::size_t number) {
  static constexpr std::string_view kDigits = "0123456789abcdefghijklmnopqrstuvwxyz";
  std::string random = "aaaa";
  for (char& c : random) {
    c = kDigits[number % kDigits.size()];
    number /= kDigits.size();
  }
  return records::make_key(at, random);
}

Entry random_entry(Draw& draw, const Planned& p, Kind kind) {
  Entry e;
  e.kind = kind;
  if (kind == Kind::weighed) {
    e.stage = stage(draw);
    e.reading = reading(draw, p, *e.stage);
  } else if (kind == Kind::tied) {
    if (draw.percent(80)) {
      e.loop = length(draw, p.loop);
    }
    if (draw.percent(50)) {
      e.reading = reading(draw, p, Stage::tied);
    }
  } else if (kind == Kind::wound) {
    fill_wound(draw, p, e);
  } else if (kind == Kind::break_in) {
    fill_break_in(draw, p, e);
  } else if (kind == Kind::broke && draw.percent(50)) {
    e.turns = turns(draw, p);
  } else if (kind == Kind::flown && draw.percent(50)) {
    e.turns_left = turns(draw, p);
  } else if (kind == Kind::labelled || kind == Kind::piece) {
    e.tag = "A";
  } else if (kind == Kind::other) {
    e.kind_text = "soaked";
  }
  return e;
}

Record plain_life(Draw& draw, std::size_t entries) {
  Record record;
  record.id = {"AB", 1};
  record.planned = draw.of(planned_motors());
  Moment at = start();
  for (std::size_t i = 0; i < entries; ++i) {
    Entry e = random_entry(draw, record.planned, draw.of(kKinds));
    at.seconds += static_cast<std::int64_t>(draw.below(200000)) + 1;
    e.key = key_at(at, i);
    record.entries.push_back(std::move(e));
  }
  return record;
}

Record corrected_life(Draw& draw, std::size_t entries) {
  Record record = plain_life(draw, entries);
  for (std::size_t i = 1; i < entries; ++i) {
    Entry& e = record.entries[i];
    const Entry& target = record.entries[draw.below(i)];
    if (draw.percent(33)) {
      const std::string key = e.key;
      e = random_entry(draw, record.planned, draw.percent(40) ? Kind::note : target.kind);
      e.key = key;
      e.corrects = target.key;
    }
  }
  return record;
}

Record random_life(Draw& draw) {
  Record record = plain_life(draw, 0);
  Moment at = start();
  const std::size_t count = draw.below(26);
  const std::size_t unsound = draw.of(std::vector<std::size_t>{0, 3, 8, 25});
  for (std::size_t i = 0; i < count; ++i) {
    Entry e = random_entry(draw, record.planned, draw.of(kKinds));
    correct_some(draw, record.planned, e, record.entries);
    at = next_time(draw, at);
    e.key = draw.percent(4) ? "hand-" + std::to_string(i) : key_at(at, i);
    e.edited = draw.percent(unsound);
    record.entries.push_back(std::move(e));
  }
  if (!record.entries.empty()) {
    disturb(draw, record.entries);
  }
  for (std::size_t i = 0; i < record.entries.size(); ++i) {  // a line between any two may be lost
    record.entries[i].line = static_cast<int>(2 * i) + 10;
  }
  if (draw.percent(10)) {
    record.lost = {static_cast<int>(2 * draw.below(26)) + 9};
  }
  if (draw.percent(5)) {
    record.planned_edited = true;
    record.planned.turns_factor *= draw.of(std::vector<double>{1, 3.7, 0.5});
  }
  return record;
}

}  // namespace loopledger::test
