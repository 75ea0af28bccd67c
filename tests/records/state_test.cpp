// SPDX-License-Identifier: MIT
#include "records/state.h"

#include <doctest/doctest.h>

#include "records/differences.h"
#include "records/read.h"
#include "records/write.h"
#include "samples.h"

using namespace loopledger;
using namespace loopledger::records;
using namespace loopledger::test;

namespace {

std::vector<Entry> life() {
  return {
      entry_of("20260201T100000Z-aaaa", Kind::weighed,
               {{"stage", "washed"}, {"reading", "1.494 g"}}),
      entry_of("20260201T110000Z-aaab", Kind::tied, {{"loop", "300 mm"}, {"reading", "1.506 g"}}),
      entry_of("20260202T100000Z-aaac", Kind::break_in, {{"loop_after", "309 mm"}}),
      entry_of("20260203T100000Z-aaad", Kind::wound, {{"turns", "1200"}, {"torque", "41 gf.cm"}}),
      entry_of("20260203T110000Z-aaae", Kind::flown, {{"time", "7:31"}}),
      entry_of("20260204T100000Z-aaaf", Kind::wound, {{"turns", "1100"}, {"end", "broke"}})};
}

}  // namespace

TEST_CASE("the state follows from what happened") {
  const std::vector<Entry> all = life();
  const std::vector<State> expected{State::planned,   State::planned,   State::tied,
                                    State::broken_in, State::broken_in, State::flown,
                                    State::retired};
  for (std::size_t n = 0; n < expected.size(); ++n) {
    CAPTURE(n);
    const std::vector<Entry> so_far(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(n));
    CHECK(state_of(so_far) == expected[n]);
  }
}

TEST_CASE("a motor tied again after it broke begins anew") {
  std::vector<Entry> entries = life();
  entries.push_back(entry_of("20260205T100000Z-aaag", Kind::tied, {{"loop", "280 mm"}}));
  CHECK(state_of(entries) == State::tied);
  const Known known = known_of(entries);
  CHECK(known.loop == Length::mm(280));
  CHECK_FALSE(known.best_turns);
  CHECK(known.flights == 0);
  CHECK_FALSE(known.washed);
  CHECK_FALSE(known.tied);
  CHECK_FALSE(known.finished);
}

TEST_CASE("what is known is the newest of each, and the best winding with its torque") {
  const Known known = known_of(life());
  CHECK(known.washed == Mass::g(1.494));
  CHECK(known.tied == Mass::g(1.506));
  CHECK(known.loop == Length::mm(309));
  CHECK(known.loop_broken_in);
  CHECK(known.best_turns == Turns::of(1200));
  CHECK(known.best_torque->in_gf_cm() == doctest::Approx(41));
  CHECK(known.windings == 2);
  CHECK(known.flights == 1);
}

TEST_CASE("edited lines are no figures, and corrected entries don't count") {
  std::vector<Entry> entries = life();
  entries[3].edited = true;
  CHECK(known_of(entries).best_turns == Turns::of(1100));
  entries[3].edited = false;
  entries.push_back(entry_of("20260206T100000Z-aaah", Kind::wound,
                             {{"turns", "1020"}, {"corrects", "20260203T100000Z-aaad"}}));
  entries[5].end = WindEnd::stopped;
  CHECK(known_of(entries).best_turns == Turns::of(1100));
  CHECK(state_of(entries) == State::flown);
  // A correction that was changed by hand takes nothing out.
  entries.back().edited = true;
  CHECK(known_of(entries).best_turns == Turns::of(1200));
}

TEST_CASE("state words read back") {
  for (const State s :
       {State::planned, State::tied, State::broken_in, State::flown, State::retired}) {
    CHECK(state_from(word(s)) == s);
  }
  CHECK(state_from("Broken in") == State::broken_in);
  CHECK_FALSE(state_from("lost"));
}

TEST_CASE("plannings that differ only in what is not compared are the same") {
  const Planned a = full_planned();
  Planned b = a;
  b.owner = "BEN";
  b.title = "another night";
  b.piece = "z";
  b.turns_factor = 12;
  b.aim += Mass::mg(0.4);
  b.loop += Length::mm(0.4);
  CHECK(differences(a, b).empty());
  const auto again = read_record(new_record_text({{"TH", 1}, 'T', a}), "f");
  CHECK(differences(again->planned, a).empty());
}

TEST_CASE("differences in masses, lengths, strip and rule are named with both figures") {
  const Planned a = full_planned();
  Planned b = a;
  b.strip = "other";
  b.loop += Length::mm(12);
  b.aim += Mass::mg(2);
  b.rule->limit = Mass::g(1.6);
  b.rule->counts.rings = true;
  b.spacer.reset();
  CHECK(differences(a, b) ==
        std::vector<std::string>{
            "strip \"supple 1/8\", now \"other\"", "limit 1.500 g, now 1.600 g",
            "counted \"rubber, lubricant, adhesive\", now \"rubber, lubricant, rings, adhesive\"",
            "aim 1.494 g, now 1.496 g", "loop 300 mm, now 312 mm", "spacer 130 mm, now none"});
}
