// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <functional>
#include <optional>

#include "base/quantity_text.h"
#include "calc/cranks.h"
#include "motor/life_text.h"
#include "motor/now.h"
#include "motor/random_life.h"
#include "records/fields.h"

using namespace loopledger;
using namespace loopledger::test;
using motor::Mark;
using motor::Now;
using motor::now_of;
using records::Entry;
using records::Kind;
using records::Record;

namespace {

/// What is wrong with a record; empty: nothing. What it draws it draws from the seed alone, so that
/// a shorter record is judged alike.
using Fault = std::function<std::string(const Record&, std::uint64_t seed)>;

void check_lives(std::uint64_t seed, int lives, const Fault& fault) {
  Draw draw(seed);
  for (int i = 0; i < lives; ++i) {
    const Record record = random_life(draw);
    const std::uint64_t of_life = seed * 1000000 + static_cast<std::uint64_t>(i);
    if (fault(record, of_life).empty()) {
      continue;
    }
    const Record least =
        shortest(record, [&](const Record& r) { return !fault(r, of_life).empty(); });
    FAIL("seed " << seed << ", life " << i << ":\n" << life_text(least) << fault(least, of_life));
  }
}

std::string risen(const Now& before, const Now& after) {
  const auto is_more = [](Turns a, Turns b) { return a.count() > b.count() * (1 + 1e-12); };
  if (!is_more(after.wind_to, before.wind_to) && !is_more(after.do_not_pass, before.do_not_pass)) {
    return {};
  }
  return "wind to " + shown_at_most(before.wind_to) + ", then " + shown_at_most(after.wind_to) +
         "; never pass " + shown_at_most(before.do_not_pass) + ", then " +
         shown_at_most(after.do_not_pass);
}

/// A time behind all that a record claims.
Moment behind(const Record& record, int minutes) {
  Moment last{midnight_utc({2026, 2, 1})};
  for (const Entry& e : record.entries) {
    last = std::max(last, records::moment_of_key(e.key).value_or(last));
  }
  return {last.seconds + 60 * minutes};
}

Record with(Record record, Entry e, int minutes) {
  e.key = key_at(behind(record, minutes), 900000 + record.entries.size());
  record.entries.push_back(std::move(e));
  return record;
}

Entry taking_back(const std::string& key) {
  Entry e;
  e.kind = Kind::note;
  e.corrects = key;
  return e;
}

}  // namespace

TEST_CASE("wind to is under never pass, in turns and in cranks, and nothing good lies past it") {
  check_lives(101, 3000, [](const Record& record, std::uint64_t) -> std::string {
    const Now now = now_of(record);
    const Turns never = now.do_not_pass;
    if (never >= Turns::of(1) && whole_down(now.wind_to) >= whole_down(never)) {
      return "wind to " + shown_at_most(now.wind_to) + ", never " + shown_at_most(never);
    }
    for (const double ratio : {1.0, 5.0, 10.0, 15.0, 16.5, 20.0}) {
      const double most = calc::cranks_never_to_pass(never, ratio);
      const double to = calc::cranks_to_wind_to(now.wind_to, never, ratio);
      if ((most > 0 && to >= most) || to < 0 || calc::turns_of_cranks(to, ratio) > now.wind_to ||
          calc::turns_of_cranks(most, ratio) > never) {
        return "in cranks";
      }
    }
    const bool past = (now.best && now.best->turns > never) ||
                      (now.most && now.most->turns > never) ||
                      (now.own_curve && now.own_curve->curve.top_turns() > never);
    return past ? "best, most or the curve go past it" : "";
  });
}

TEST_CASE("a shorter loop of this knot raises neither figure") {
  check_lives(102, 4000, [](const Record& record, std::uint64_t seed) -> std::string {
    Draw draw(seed);
    const Now now = now_of(record);
    const double factor = draw.percent(50) ? draw.between(0.95, 1) : draw.between(0.2, 1);
    Record shorter = record;
    bool is_newest = true;  // what was tied before it belongs to another knot when it is shortened
    for (auto s = now.life().entries.rbegin(); s != now.life().entries.rend(); ++s) {
      Entry& e = shorter.entries[static_cast<std::size_t>(s->entry - record.entries.data())];
      if (e.loop && is_newest) {
        e.loop = *e.loop * factor;
        is_newest = false;
      }
      if (e.loop_after && draw.percent(60)) {
        e.loop_after = *e.loop_after * factor;
      }
    }
    const Now then = now_of(shorter);
    // Shorter than a loop is measured anew it is another knot, which has no readings yet.
    return then.lives.size() > now.lives.size() ? "" : risen(now, then);
  });
}

TEST_CASE("a line that another program added raises neither figure") {
  check_lives(103, 3000, [](const Record& record, std::uint64_t seed) -> std::string {
    Draw draw(seed);
    static const std::vector<Kind> kAny{Kind::weighed, Kind::tied, Kind::break_in, Kind::wound,
                                        Kind::broke,   Kind::note, Kind::retired};
    Entry e = random_entry(draw, record.planned, draw.of(kAny));
    e.edited = true;
    if (!record.entries.empty() && draw.percent(60)) {
      e.corrects = draw.of(record.entries).key;
    }
    e.key = draw.percent(20) ? "by hand"
                             : key_at({midnight_utc({2026, 2, 1}).seconds +
                                       static_cast<std::int64_t>(draw.below(3000000))},
                                      900000);
    Record more = record;
    more.entries.insert(
        more.entries.begin() + static_cast<std::ptrdiff_t>(draw.below(record.entries.size() + 1)),
        e);
    return risen(now_of(record), now_of(more));
  });
}

TEST_CASE("a taking-back that is taken back leaves everything as it was") {
  check_lives(104, 2000, [](const Record& record, std::uint64_t seed) -> std::string {
    if (record.entries.empty()) {
      return {};
    }
    Draw draw(seed);
    Record more = with(record, taking_back(draw.of(record.entries).key), 1);
    more = with(more, taking_back(more.entries.back().key), 1);
    return differences(now_of(record), now_of(more));
  });
}

TEST_CASE("a note or a label changes no figure") {
  check_lives(105, 2000, [](const Record& record, std::uint64_t seed) -> std::string {
    Draw draw(seed);
    Entry e;
    e.kind = draw.percent(50) ? Kind::note : Kind::labelled;
    const Record more = with(record, e, 1);
    Now now = now_of(record);
    Now after = now_of(more);
    // What it does change: that it is there.
    for (Now* const n : {&now, &after}) {
      n->labelled = nullptr;
      n->labelled_before_knot = false;
      n->last.reset();
    }
    for (motor::Life& life : after.lives) {
      std::erase_if(life.entries,
                    [&](const motor::Standing& s) { return s.entry == &more.entries.back(); });
    }
    return differences(now, after);
  });
}

TEST_CASE("two corrections of different entries may stand in either order") {
  Draw draw(106);
  int swaps = 0;
  for (int i = 0; i < 4000; ++i) {
    const Record record = corrected_life(draw, 4 + draw.below(16));
    Record swapped = record;
    Entry& a = swapped.entries[draw.below(record.entries.size())];
    Entry& b = swapped.entries[draw.below(record.entries.size())];
    if (a.corrects.empty() || b.corrects.empty() || a.corrects == b.corrects) {
      continue;
    }
    std::swap(a, b);
    ++swaps;
    const std::string differs = differences(now_of(record), now_of(swapped));
    CHECK_MESSAGE(differs.empty(), life_text(record) << differs);
  }
  CHECK(swaps > 200);
}

TEST_CASE("lines of two copies give the same motor however they are merged") {
  Draw draw(107);
  for (int i = 0; i < 2000; ++i) {
    const Record record = corrected_life(draw, draw.below(20));
    // Each line is one copy's or the other's; each copy keeps its order.
    std::array<std::vector<Entry>, 2> copies;
    for (const Entry& e : record.entries) {
      copies.at(draw.below(2)).push_back(e);
    }
    Record merged = record;
    merged.entries.clear();
    std::array<std::size_t, 2> at{};
    while (merged.entries.size() < record.entries.size()) {
      const std::size_t from = draw.below(2);
      if (at.at(from) < copies.at(from).size()) {
        merged.entries.push_back(copies.at(from)[at.at(from)++]);
      }
    }
    // That a line stands late is told; the rest is the same.
    Now other = now_of(merged);
    std::erase_if(other.marked, [](const motor::Marked& m) { return m.mark == Mark::late; });
    const std::string differs = differences(now_of(record), other);
    CHECK_MESSAGE(differs.empty(), life_text(merged) << differs);
  }
}
