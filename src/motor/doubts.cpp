// SPDX-License-Identifier: MIT
#include "motor/doubts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "calc/weigh.h"
#include "motor/doubts_rules.h"
#include "records/fields.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;

constexpr std::int64_t kDay = 86400;

void ask_time(const AskedEntry& a) {
  const auto at = records::moment_of_key(a.entry.key);
  if (!at || !a.entry.corrects.empty()) {
    return;  // a correction's time is that of what it replaces
  }
  const std::int64_t tomorrow = midnight_utc(date_of(a.context.now)).seconds + 2 * kDay;
  if (at->seconds < 0 || at->seconds >= tomorrow) {
    a.add(Slip::time, readable(*at),
          at->seconds < 0 ? "lies before 1970" : "lies beyond tomorrow: is the date right");
  }
}

void ask_head(const AskedEntry& a) {
  const Kind kind = a.entry.kind;
  if ((a.now.is_shaky() || a.now.may_be_over()) &&
      (kind == Kind::weighed || kind == Kind::tied || kind == Kind::break_in ||
       kind == Kind::wound || kind == Kind::flown)) {
    a.add(Slip::head, {},
          a.now.has_damaged_head()
              ? "its figures as planned are damaged: `loopledger mend` first"
              : "a line of its record can't be relied on: `loopledger show`, then `mend`");
  }
}

/// A motor that broke or was put away is weighed and wound no more until it has a new knot.
void ask_state(const AskedEntry& a) {
  const Kind kind = a.entry.kind;
  const bool wound = kind == Kind::break_in || kind == Kind::wound || kind == Kind::flown;
  if (a.now.state == State::retired && (wound || kind == Kind::weighed || kind == Kind::broke)) {
    a.add(Slip::retired, {}, "it is retired; if it has a new knot, log that it is tied first");
  }
  const bool is_tied = a.now.tied_measured || a.now.read.tied || a.now.read.finished;
  const bool strained = wound || kind == Kind::broke;
  if (a.now.state == State::planned && strained && !is_tied && !a.entry.loop_before) {
    const std::string loop = shown(a.p().loop, a.context.units);
    a.add(Slip::not_tied, {}, fmt::format("not tied yet: log its loop first (tied {})", loop));
  }
}

void ask_flight(const AskedEntry& a) {
  const Entry& e = a.entry;
  if (e.flight_time && *e.flight_time > kLongestFlight) {
    const int likely = static_cast<int>(std::lround(e.flight_time->in_s() / 60));
    const std::string minutes = fmt::format("{}:{:02}", likely / 60, likely % 60);
    a.add(Slip::hours, shown(*e.flight_time), "is long for a flight: hours for minutes", minutes,
          minutes);
  }
  if (e.turns_left && !a.now.last_turns && *e.turns_left > a.now.do_not_pass) {
    a.add(Slip::beyond, fmt::format("{} turns left", shown_at_most(*e.turns_left)),
          fmt::format("is past \"do not pass\" {}", shown_at_most(a.now.do_not_pass)));
  }
  if (e.turns_left && a.now.last_turns && *e.turns_left > *a.now.last_turns) {
    a.add(Slip::beyond, fmt::format("{} turns left", shown_at_most(*e.turns_left)),
          fmt::format("is more than the {} that were wound", shown_at_most(*a.now.last_turns)));
  }
}

}  // namespace

std::string typed_or(const Entry& entry, std::string_view field, const std::string& otherwise) {
  const auto found = std::ranges::find_if(
      entry.typed, [field](const auto& typed) { return typed.first == field; });
  return found == entry.typed.end() ? otherwise : found->second;
}

std::string_view code(Slip slip) {
  constexpr std::array<std::string_view, 18> kCodes{
      "point",     "same-reading", "unit",   "digits", "cranks",  "not-cranks",
      "ten-times", "hours",        "time",   "ring",   "loop",    "mass",
      "beyond",    "turns",        "torque", "head",   "retired", "not-tied"};
  return kCodes.at(static_cast<std::size_t>(slip));
}

std::string statement(const Doubt& doubt) {
  return doubt.typed.empty() ? doubt.says : fmt::format("{} {}", doubt.typed, doubt.says);
}

std::string question(const std::vector<Doubt>& doubts) {
  std::string said;
  for (const Doubt& doubt : doubts) {
    said += (said.empty() ? "" : "; also: ") + statement(doubt);
  }
  if (said.empty()) {
    return said;
  }
  const std::string& type = doubts.front().type;
  return fmt::format("{}{}{}", said, said.ends_with('?') ? "" : "?",
                     type.empty() ? "" : " type " + type);
}

std::vector<Doubt> doubts_about(const records::Record& record, const Now& now, const Entry& entry,
                                const DoubtContext& context) {
  std::vector<Doubt> doubts;
  const AskedEntry asked{record, now, entry, context, doubts};
  if (ask_point_of_turns(asked)) {
    return doubts;  // then the rest says nothing
  }
  ask_time(asked);
  ask_head(asked);
  ask_state(asked);
  ask_reading(asked);
  ask_loops(asked);
  ask_turns(asked);
  ask_torque(asked);
  ask_flight(asked);
  std::ranges::stable_sort(doubts, {}, &Doubt::slip);
  return doubts;
}

std::optional<Mass> expected_reading(const records::Planned& p, Stage stage) {
  const records::Window w = calc::scale_window(p, stage);
  return w.low && w.high ? std::optional((*w.low + *w.high) / 2) : std::nullopt;
}

std::vector<Doubt> doubts_of(const records::Record& record, const Entry& entry,
                             const DoubtContext& context) {
  if (entry.kind == Kind::note || entry.kind == Kind::labelled || entry.kind == Kind::piece) {
    return doubts_about(record, Now{}, entry, context);  // nothing of them is held against figures
  }
  const auto before = record_before(record, entry);
  const records::Record& held_against = before ? *before : record;
  return doubts_about(held_against, now_of(held_against), entry, context);
}

std::optional<records::Record> record_before(const records::Record& record, const Entry& entry) {
  const StandingEntries standing = standing_of(record.entries);
  const auto at = records::moment_of_key(entry.key);
  auto end = standing.entries.end();
  if (!entry.corrects.empty()) {
    const std::string_view place = place_of(record.entries, entry.corrects);
    end = std::ranges::find_if(standing.entries,
                               [place](const Standing& s) { return s.place->key == place; });
  }
  if (end == standing.entries.end() && at) {
    end = std::ranges::find_if(standing.entries,
                               [&at](const Standing& s) { return s.at && *s.at > *at; });
  }
  if (end == standing.entries.end()) {
    return std::nullopt;
  }
  records::Record before = record;
  before.entries.clear();
  for (auto s = standing.entries.begin(); s != end; ++s) {
    before.entries.push_back(*s->entry);
    before.entries.back().key = s->place->key;
    before.entries.back().corrects.clear();
  }
  return before;
}

}  // namespace loopledger::motor
