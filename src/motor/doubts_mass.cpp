// SPDX-License-Identifier: MIT
//
// Slips at the scale.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "calc/weigh.h"
#include "motor/doubts_rules.h"
#include "records/fields.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;
using records::Planned;

bool within_factor(double value, double of, double factor) {
  return of > 0 && value > 0 && value <= of * factor && value >= of / factor;
}

/// What the stage should read; of another knot than the planned one by its own loop.
std::optional<Mass> expected_at(const AskedEntry& a, Stage stage) {
  const Planned& p = a.p();
  if (stage == Stage::as_cut) {
    return p.windows.about;
  }
  const bool retied = a.now.has_new_knot() || a.now.state >= State::broken_in;
  const Length loop = a.entry.loop.value_or(a.now.tied_measured ? a.now.loop_as_tied : p.loop);
  if (retied && stage != Stage::washed && loop > p.loop * kLeastNewKnot && loop < p.loop) {
    const Mass rubber = p.linear_density.value * (loop * p.strands + p.knot);
    return calc::reading_of(p, stage, rubber);
  }
  return expected_reading(p, stage);
}

void ask_size(const AskedEntry& a, Stage stage, Mass reading) {
  const auto expected = expected_at(a, stage);
  const double factor = expected ? reading / *expected : 1;
  if (within_factor(factor, 1, kMassNear)) {
    return;
  }
  const Mass step = a.p().scale_step;
  const auto without = [&](double times) {
    return fixed(reading.in_g() / times, gram_decimals(step));
  };
  if (within_factor(factor, 1000, kMassNear)) {
    a.add(Slip::point, rounded(reading.in_g(), 7),
          fmt::format("looks like {} g without its point", without(1000)), without(1000) + " g",
          without(1000));
    return;
  }
  const bool too_much = within_factor(factor, 10, kTenTimes);
  const bool ten = too_much || within_factor(factor, 0.1, kTenTimes);
  const std::string tails = stage == Stage::washed && a.p().tails > Length{} ? ", tails on" : "";
  const std::string where = stage == Stage::as_cut ? "as cut" : std::string(word(stage));
  const std::string likely = ten ? without(too_much ? 10 : 0.1) : std::string();
  a.add(ten ? Slip::ten_times : Slip::mass, shown(reading, step),
        fmt::format("is {}; {} it should read about {}", ten ? "ten times off" : "far off",
                    where + tails, shown(*expected, step)),
        likely.empty() ? likely : likely + " g", likely);
}

/// The newest entry that weighed it, if nothing but notes and papers came since.
const Entry* weighed_just_before(const Now& now) {
  const auto& entries = now.life().entries;
  for (auto s = entries.rbegin(); s != entries.rend(); ++s) {
    if (stage_weighed(*s->entry)) {
      return s->entry;
    }
    if (s->entry->kind != Kind::note && s->entry->kind != Kind::labelled) {
      break;
    }
  }
  return nullptr;
}

bool is_soon(const AskedEntry& a, const Entry& before) {
  const auto at = records::moment_of_key(a.entry.key);
  const auto then = records::moment_of_key(before.key);
  return a.context.just_typed ||
         (at && then &&
          std::fabs(static_cast<double>(at->seconds - then->seconds)) <= kSoon.in_s());
}

/// The same reading a second time in a row, where something should have come off in between.
void ask_same(const AskedEntry& a, Stage stage, Mass reading) {
  const Entry* const before = a.entry.corrects.empty() ? weighed_just_before(a.now) : nullptr;
  if (before == nullptr || !is_soon(a, *before) ||
      std::fabs((*before->reading - reading).in_si()) > a.p().scale_step.in_si() / 2) {
    return;
  }
  const bool over = calc::judge(a.p(), stage, reading).verdict == calc::Verdict::over;
  const Stage then = *stage_weighed(*before);
  if (then == Stage::as_cut && (over || stage == Stage::as_cut || a.context.stage_inferred)) {
    a.add(Slip::same_reading, shown(reading, a.p().scale_step),
          "is the same as just now: is it washed");
  } else if (then == stage && over) {
    a.add(Slip::same_reading, shown(reading, a.p().scale_step),
          "is the same as just now: was anything snipped off");
  }
}

}  // namespace

void ask_reading(const AskedEntry& a) {
  const auto stage = stage_weighed(a.entry);
  if (!stage || !a.entry.reading) {
    return;
  }
  ask_same(a, *stage, *a.entry.reading);
  ask_size(a, *stage, *a.entry.reading);
  const bool worked = a.now.state >= State::broken_in;  // then tying it makes another motor
  if (*stage == Stage::tied && a.now.read.washed && !(a.entry.kind == Kind::tied && worked)) {
    const auto check = calc::check_tying(a.p(), *a.now.read.washed, *a.entry.reading);
    if (!check.agrees) {
      a.add(Slip::ring, {}, words_of_tying(check, a.p().scale_step));
    }
  }
  // Oil is rubbed in again after break-in: only then may it be another mass.
  const bool first = *stage == Stage::finished && !worked && !a.now.read.finished;
  if (first && !calc::judge(a.p(), *stage, *a.entry.reading, a.now.read.together()).agree) {
    a.add(Slip::mass, shown(*a.entry.reading, a.p().scale_step),
          "does not agree with what it read before: was strip taken off, or is it another motor");
  }
}

std::string words_of_tying(const calc::TyingCheck& check, Mass step) {
  const std::string out = fmt::format(
      "tied minus washed{} {}, rings and glue {}", check.tails > Mass{} ? " without tails" : "",
      shown_mg(check.difference, step), shown_mg(check.expected, step));
  if (check.agrees) {
    return out + ": agrees";
  }
  if (check.rings_missing > 0) {
    return out + fmt::format(": {} forgotten?",
                             how_many(static_cast<std::size_t>(check.rings_missing), "ring"));
  }
  return out + (check.tails_still_on ? ": tails still on?" : ": does not agree, weigh again");
}

bool ask_point_of_turns(const AskedEntry& a) {
  const Entry& e = a.entry;
  const bool winding = e.kind == Kind::wound || e.kind == Kind::break_in;
  if (!winding || !e.turns || e.torque || a.context.in_cranks ||
      e.turns->count() != std::floor(e.turns->count())) {
    return false;
  }
  const Mass mass = Mass::mg(e.turns->count());
  const bool is_mass = std::ranges::any_of(kStages, [&](Stage stage) {
    const auto expected = expected_at(a, stage);
    return expected && within_factor(mass / *expected, 1, kMassNear);
  });
  // Where somebody said that it was wound, it was: what is too much is asked as turns.
  const bool past = a.context.turns_are == TurnsAre::asked_for && *e.turns > a.now.do_not_pass;
  const Readings& read = a.now.read;
  const bool untouched =
      a.now.windings == 0 && !read.as_cut && !read.washed && !read.tied && !read.finished;
  const bool asks = a.context.turns_are == TurnsAre::guessed || past ||
                    (a.context.turns_are == TurnsAre::asked_for && untouched);
  if (!is_mass || !asks) {
    return false;
  }
  const std::string grams = fixed(mass.in_g(), 3);
  a.add(Slip::point, shown_at_most(*e.turns),
        fmt::format("looks like {} g without its point", grams), grams + " g", grams);
  return true;
}

}  // namespace loopledger::motor
