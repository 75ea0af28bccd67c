// SPDX-License-Identifier: MIT
//
// The rules behind what is asked back; how they sound in each way in is tested in
// tests/terminal/log_slips_test.cpp.
#include "motor/doubts.h"

#include <doctest/doctest.h>

#include "calc/work_out.h"
#include "records/fields.h"
#include "support/plan_text.h"

using namespace loopledger;
using motor::Slip;
using records::Entry;
using records::Kind;
using records::Record;

namespace {

/// A motor of an invented night: 1.5 g of 2.58 g/m, two strands, a loop of 282 mm.
Record asked_motor() {
  const auto plan = test::read(R"(format = 1
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
strips.tan = { width = "2.5 mm", samples = [["500 mm", "1.290 g"]] }
[[motors]]
id = "AB"
rule = "club"
mass = "limit"
)");
  REQUIRE(plan.ok());
  const auto batch = calc::work_out(*plan);
  REQUIRE(batch.ok());
  Record record;
  record.id = {"AB", 1};
  record.planned = batch->motors.front().planned;
  return record;
}

Entry entry_on(int day, Kind kind, const std::vector<std::pair<std::string, std::string>>& fields) {
  Entry e;
  e.kind = kind;
  e.key = records::make_key(midnight_utc({2026, 2, day}), "aa" + std::to_string(10 + day));
  for (const auto& [name, text] : fields) {
    REQUIRE(records::set_field(e, *records::find_field(kind, name), text).empty());
  }
  return e;
}

motor::DoubtContext evening() {
  motor::DoubtContext context;
  context.now = midnight_utc({2026, 2, 20});
  return context;
}

std::vector<Slip> slips_of(const Record& record, const Entry& entry) {
  std::vector<Slip> out;
  for (const motor::Doubt& doubt : motor::doubts_of(record, entry, evening())) {
    out.push_back(doubt.slip);
  }
  return out;
}

}  // namespace

TEST_CASE("a step beyond the recipe's last is asked back; without a recipe any step is taken") {
  Record record = asked_motor();
  record.entries.push_back(entry_on(2, Kind::tied, {{"loop", "282 mm"}}));
  record.planned.break_in.clear();
  CHECK(slips_of(record, entry_on(3, Kind::break_in, {{"step", "3"}})).empty());
  record.planned.break_in.resize(2);
  CHECK(slips_of(record, entry_on(3, Kind::break_in, {{"step", "2"}})).empty());
  CHECK(slips_of(record, entry_on(3, Kind::break_in, {{"step", "3"}})) ==
        std::vector<Slip>{Slip::beyond});
}

TEST_CASE("turns that somebody called turns are asked back as too many, not as a mass") {
  Record record = asked_motor();
  record.entries.push_back(
      entry_on(1, Kind::weighed, {{"stage", "washed"}, {"reading", "1.480 g"}}));
  record.entries.push_back(entry_on(2, Kind::tied, {{"loop", "282 mm"}}));
  CHECK(slips_of(record, entry_on(3, Kind::wound, {{"turns", "1690"}})) ==
        std::vector<Slip>{Slip::turns});
  auto context = evening();
  context.turns_are = motor::TurnsAre::guessed;
  const Entry bare = entry_on(3, Kind::wound, {{"turns", "1690"}});
  REQUIRE(motor::doubts_of(record, bare, context).size() == 1);
  CHECK(motor::doubts_of(record, bare, context)[0].slip == Slip::point);
}

TEST_CASE("the mass fixes the loop: every loop of a light motor that its mass allows is taken") {
  Record record = asked_motor();
  record.entries.push_back(
      entry_on(1, Kind::weighed, {{"stage", "washed"}, {"reading", "1.260 g"}}));
  // (1.260 / 2.58 - 0.016) / 2 = 236 mm
  CHECK(slips_of(record, entry_on(2, Kind::tied, {{"loop", "236 mm"}})).empty());
  CHECK(slips_of(record, entry_on(2, Kind::tied, {{"loop", "282 mm"}})) == std::vector{Slip::loop});
}

TEST_CASE("washed strip over its window may be tied after snipping, down to the planned loop") {
  Record record = asked_motor();
  record.entries.push_back(
      entry_on(1, Kind::weighed, {{"stage", "washed"}, {"reading", "1.700 g"}}));
  CHECK(slips_of(record, entry_on(2, Kind::tied, {{"loop", "282 mm"}})).empty());
  CHECK(slips_of(record, entry_on(2, Kind::tied, {{"loop", "320 mm"}})).empty());
  CHECK_FALSE(slips_of(record, entry_on(2, Kind::tied, {{"loop", "260 mm"}})).empty());
}

TEST_CASE("the likeliest stands first, with what to type") {
  Record record = asked_motor();
  const auto doubts = motor::doubts_of(
      record, entry_on(2, Kind::wound, {{"turns", "900"}, {"torque", "410 gf.cm"}}), evening());
  REQUIRE(doubts.size() == 2);
  CHECK(motor::code(doubts[0].slip) == "ten-times");
  CHECK(motor::code(doubts[1].slip) == "not-tied");
  CHECK(doubts[0].likely == "41 gf.cm");
  CHECK(motor::question(doubts).ends_with("? type 41 gf.cm"));
}

TEST_CASE("an entry is held against the motor at its own time") {
  Record record = asked_motor();
  record.entries.push_back(entry_on(3, Kind::tied, {{"loop", "282 mm"}}));
  record.entries.push_back(entry_on(5, Kind::wound, {{"turns", "900"}}));
  CHECK(slips_of(record, entry_on(2, Kind::wound, {{"turns", "800"}})) ==
        std::vector{Slip::not_tied});
  CHECK(slips_of(record, entry_on(4, Kind::wound, {{"turns", "800"}})).empty());
  CHECK_FALSE(motor::record_before(record, entry_on(6, Kind::wound, {{"turns", "800"}})));
  Entry correction = entry_on(6, Kind::tied, {{"loop", "283 mm"}});
  correction.corrects = record.entries[0].key;
  const auto before = motor::record_before(record, correction);
  REQUIRE(before);
  CHECK(before->entries.empty());
  CHECK(slips_of(record, correction).empty());
}

TEST_CASE("a correction of a correction stands in the first one's place") {
  Record record = asked_motor();
  record.entries.push_back(entry_on(3, Kind::tied, {{"loop", "282 mm"}}));
  record.entries.push_back(entry_on(4, Kind::tied, {{"loop", "281 mm"}}));
  record.entries[1].corrects = record.entries[0].key;
  CHECK(motor::place_of(record.entries, record.entries[1].key) == record.entries[0].key);
  CHECK(motor::place_of(record.entries, "no such key") == "no such key");
}

TEST_CASE("worked rubber is no longer than it hung, and its first knot is not what it is held to") {
  Record record = asked_motor();
  record.entries.push_back(entry_on(3, Kind::tied, {{"loop", "282 mm"}}));
  record.entries.push_back(entry_on(4, Kind::break_in, {{"loop_after", "292 mm"}}));
  CHECK(slips_of(record, entry_on(5, Kind::tied, {{"loop", "290 mm"}})).empty());
  CHECK(slips_of(record, entry_on(5, Kind::tied, {{"loop", "150 mm"}})).empty());
  CHECK(slips_of(record, entry_on(5, Kind::tied, {{"loop", "330 mm"}})) == std::vector{Slip::loop});
  CHECK(slips_of(record, entry_on(5, Kind::tied, {{"loop", "29 cm"}})).empty());
  CHECK(slips_of(record, entry_on(5, Kind::tied, {{"loop", "290 cm"}})) == std::vector{Slip::unit});
}

TEST_CASE("cranks are only guessed where so few turns can't be meant") {
  Record record = asked_motor();  // winds to 1054
  record.planned.winder_ratio = 10;
  record.entries.push_back(entry_on(3, Kind::tied, {{"loop", "282 mm"}}));
  CHECK(slips_of(record, entry_on(4, Kind::wound, {{"turns", "100"}})) ==
        std::vector{Slip::cranks});
  CHECK(slips_of(record, entry_on(4, Kind::wound, {{"turns", "40"}})).empty());
  CHECK(slips_of(record, entry_on(4, Kind::wound, {{"turns", "500"}})).empty());
  record.planned.winder_ratio = 2;
  CHECK(slips_of(record, entry_on(4, Kind::wound, {{"turns", "527"}})).empty());
}
