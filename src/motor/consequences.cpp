// SPDX-License-Identifier: MIT
#include "motor/consequences.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "calc/rule_parts.h"
#include "motor/advice.h"
#include "motor/doubts.h"
#include "motor/words.h"
#include "records/fields.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;
using records::Record;

/// The motor as it was without what `entry` corrects: as if its place had been taken back.
motor::Now others_of(Record& before, const Entry& entry) {
  if (!entry.corrects.empty()) {
    Entry back;
    back.kind = Kind::note;
    back.key = entry.key;
    back.corrects = std::string(motor::place_of(before.entries, entry.corrects));
    before.entries.push_back(std::move(back));
  }
  return motor::now_of(before);
}

/// What follows from a winding: against the best of the others, and against "do not pass".
void append_winding(const Record& before, const Entry& e, const motor::Now& now,
                    std::vector<std::string>& lines) {
  Record without = before;
  const motor::Now others = others_of(without, e);
  const auto most = others.beyond ? others.beyond : others.most;
  if (most && *e.turns > most->turns) {
    lines.push_back(
        fmt::format("more than ever before: {} turns", rounded(most->turns.count(), 6)));
  }
  if (*e.turns > now.do_not_pass) {
    lines.push_back(fmt::format("past \"do not pass\", {} turns", shown_at_most(now.do_not_pass)));
  } else if (now.state != motor::State::retired) {
    lines.push_back(fmt::format("{} turns left before \"do not pass\", {}",
                                shown_at_most(now.do_not_pass - *e.turns),
                                shown_at_most(now.do_not_pass)));
  }
}

void append_reading(const Record& after, const Entry& e, const motor::Now& before, Units units,
                    std::vector<std::string>& lines) {
  const auto stage = motor::stage_weighed(e);
  if (!stage) {
    return;
  }
  const records::Planned& p = after.planned;
  const calc::Judgement j = calc::judge(p, *stage, *e.reading, before.read.together());
  lines.push_back(verdict_text(p, j, units));
  if (const std::string over = over_before(p, *stage, *e.reading, before.read);
      !over.empty() && j.verdict != calc::Verdict::over) {
    lines.push_back(over);
  }
  if (const std::string unnamed = unnamed_words(p);
      !unnamed.empty() && *stage != Stage::as_cut && j.verdict == calc::Verdict::ok) {
    lines.push_back(unnamed);
  }
  if (*stage == Stage::tied && before.read.washed &&
      (p.rings.value + p.adhesive_mass.value > Mass{} || p.tails > Length{})) {
    lines.push_back(
        tying_text(calc::check_tying(p, *before.read.washed, *e.reading), p.scale_step));
  }
}

/// What counts in a place, and when; null: nothing stands there.
const motor::Standing* standing_at(const motor::StandingEntries& all, std::string_view place) {
  const auto found = std::ranges::find_if(
      all.entries, [place](const motor::Standing& s) { return s.place->key == place; });
  return found == all.entries.end() ? nullptr : &*found;
}

bool takes_back(const Entry& entry) { return entry.kind == Kind::note && !entry.corrects.empty(); }

}  // namespace

std::string over_before(const records::Planned& p, Stage stage, Mass now,
                        const motor::Readings& before) {
  if (!calc::judge(p, stage, now, before.together()).agree) {
    return {};  // strip came off since
  }
  for (const Stage earlier : {Stage::washed, Stage::tied}) {
    const auto& reading = before.of(earlier);
    if (earlier >= stage || !reading) {
      continue;
    }
    const calc::Judgement j = calc::judge(p, earlier, *reading);
    if (j.verdict == calc::Verdict::over) {
      return fmt::format("it was {} over when {}", shown_mg(j.over, p.scale_step), spoken(earlier));
    }
  }
  return {};
}

std::string unnamed_words(const records::Planned& p) {
  const auto parts = calc::counted_but_not_named(p);
  return parts.empty()
             ? std::string()
             : fmt::format("{} count{} too, and the motor names none", fmt::join(parts, " and "),
                           parts.size() == 1 && !parts[0].ends_with('s') ? "s" : "");
}

std::string growth_words(const Record& record) { return set_words(motor::now_of(record)); }

std::vector<std::string> new_knot_words(const Record& before, const Record& after,
                                        const Entry& entry, Units units,
                                        const std::string& take_back) {
  if (entry.kind != Kind::tied) {
    return {};
  }
  const auto until = motor::record_before(before, entry);
  const motor::Now old = motor::now_of(until ? *until : before);
  if (motor::now_of(after).lives.size() <= motor::now_of(before).lives.size()) {
    return {};
  }
  std::vector<std::string> history;
  if (old.most) {
    history.push_back(fmt::format("best {}", rounded(old.most->turns.count(), 6)));
  }
  if (old.loop_is != LoopIs::planned) {
    history.push_back(fmt::format("the loop of {}", shown(old.loop, units)));
  }
  if (old.windings > 0) {
    history.push_back(how_many(static_cast<std::size_t>(old.windings), "winding"));
  }
  std::vector<std::string> lines{
      history.empty() ? "a new knot"
                      : fmt::format("a new knot: {} of before {} history", fmt::join(history, ", "),
                                    history.size() == 1 ? "is" : "are")};
  const bool same = entry.loop && old.state != motor::State::retired &&
                    (motor::same_loop(after.planned, *entry.loop, old.loop) ||
                     motor::same_loop(after.planned, *entry.loop, old.loop_as_tied));
  if (same) {
    lines.push_back(
        fmt::format("if it was only measured again, take it back: {}; a loop measured "
                    "after break-in is break_in loop_after=",
                    take_back));
  }
  return lines;
}

std::string correction_words(const Record& before, const Record& after, const Entry& entry,
                             Units units) {
  if (entry.corrects.empty()) {
    return {};
  }
  const std::string_view place = motor::place_of(before.entries, entry.corrects);
  const auto old = motor::standing_of(before.entries);
  const auto now = motor::standing_of(after.entries);
  const motor::Standing* const was = standing_at(old, place);
  const motor::Standing* const is = standing_at(now, place);
  const auto target = std::ranges::find(before.entries, entry.corrects, &Entry::key);
  const auto said = [units](const Entry& e) { return in_words(e, units); };
  if (target == before.entries.end()) {
    return "replaces what could not be relied on";
  }
  if (takes_back(entry)) {
    const std::string back = fmt::format("takes back: {}", said(*target));
    return is == nullptr ? back : fmt::format("{}; counts again: {}", back, said(*is->entry));
  }
  if (is == nullptr) {
    return "does not count: it was taken back after it";
  }
  if (is->entry->key != entry.key) {
    return fmt::format("does not count: {} was corrected after it", said(*is->entry));
  }
  const std::string time =
      is->at ? fmt::format("; counts at its time, {}", readable(*is->at)) : std::string();
  return was == nullptr ? fmt::format("counts again as this{}", time)
                        : fmt::format("replaces {}{}", said(*was->entry), time);
}

std::vector<std::string> consequences(const Record& before, const Record& after, const Entry& e,
                                      Units units) {
  std::vector<std::string> lines;
  const auto until = motor::record_before(before, e);
  const motor::Now then = motor::now_of(until ? *until : before);
  const motor::Now old = motor::now_of(before);
  const motor::Now now = motor::now_of(after);
  if (std::string replaced = correction_words(before, after, e, units); !replaced.empty()) {
    lines.push_back(std::move(replaced));
  }
  append_reading(after, e, then, units, lines);
  const bool winds = e.kind == Kind::wound || e.kind == Kind::break_in || e.kind == Kind::flown;
  if (winds && old.state == motor::State::retired && now.state == old.state) {
    lines.emplace_back("it is retired, not to be wound; log it tied again when it has a new knot");
  } else if (e.kind == Kind::break_in && e.loop_after && now.growth) {
    lines.push_back(fmt::format("{}; wind to {} turns, do not pass {}", growth_words(after),
                                shown_at_most(now.wind_to), shown_at_most(now.do_not_pass)));
  } else if (e.kind == Kind::wound && e.turns) {
    append_winding(before, e, now, lines);
  }
  for (std::string& line : new_knot_words(
           before, after, e, units,
           fmt::format("`loopledger log {} note measured again corrects={}`", printed(after.id),
                       e.key.substr(e.key.size() - std::min<std::size_t>(4, e.key.size()))))) {
    lines.push_back(std::move(line));
  }
  if (old.state != now.state) {
    lines.push_back(fmt::format("it is now {}", spoken(now.state)));
  }
  return lines;
}

}  // namespace loopledger::motor
