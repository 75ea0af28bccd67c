// SPDX-License-Identifier: MIT
//
// The one way in, through each of its doors: `log`, `log --from` and the bench give one entry the
// same key rules, the same doubts, the same warning and the same consequences.
#include "commands/take_entry.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "commands/bench.h"
#include "commands/log.h"
#include "commands/log_many.h"
#include "records/fields.h"
#include "support/club_plan.h"
#include "support/memory_world.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

/// What is typed of TH-01: a kind and its fields.
struct Typed {
  std::string kind;
  std::vector<std::pair<std::string, std::string>> fields;
};

/// What a door made of it.
struct Told {
  std::optional<records::Entry> entry{};  ///< stored
  std::string doubts{};                   ///< in words, parted by "; also: "
  bool again = false;
  std::vector<std::string> consequences{};
  Diagnostics said{};
};

std::string doubts_in(const Diagnostics& said) {
  std::string doubts;
  for (const Diagnostic& d : said) {
    if (d.code == "log-doubt") {
      doubts +=
          (doubts.empty() ? "" : "; also: ") + d.message.substr(std::string("TH-01: ").size());
    }
  }
  return doubts;
}

bool is_said(const Diagnostics& said, std::string_view code) {
  return std::ranges::any_of(said, [&](const Diagnostic& d) { return d.code == code; });
}

Told by_log(MemoryWorld& world, const Typed& typed, bool sure, const std::string& at = {}) {
  commands::LogRequest request;
  request.id = "th1";
  request.kind = typed.kind;
  for (const auto& [name, value] : typed.fields) {
    request.words.push_back(name + "=" + value);
  }
  request.at = at;
  request.sure = sure;
  commands::LogAnswer answer = commands::log(request, world.get());
  Told told{.doubts = doubts_in(answer.said), .again = is_said(answer.again, "log-again")};
  if (answer.taken) {
    told.entry = answer.taken->entry;
    told.consequences = answer.taken->consequences;
  }
  told.said = std::move(answer.said);
  return told;
}

/// Of a row without a time what says the same is there already, so it has one unless told not to.
Told by_file(MemoryWorld& world, const Typed& typed, bool sure, const std::string& at) {
  std::string head = "id,kind,at";
  std::string row = fmt::format("th1,{},{}", typed.kind, at);
  for (const auto& [name, value] : typed.fields) {
    head += "," + name;
    row += "," + value;
  }
  world.files.files["e.csv"] = head + "\n" + row + "\n";
  commands::LogManyRequest request;
  request.from = "e.csv";
  request.sure = sure;
  commands::LogManyAnswer answer = commands::log_many(request, world.get());
  Told told{.doubts = doubts_in(answer.said), .again = is_said(answer.said, "log-again")};
  if (!answer.rows.empty()) {
    told.entry = answer.rows.front().entry;
    told.consequences = answer.rows.front().consequences;
  }
  told.said = std::move(answer.said);
  return told;
}

Told by_bench(MemoryWorld& world, const Typed& typed, bool sure) {
  commands::BenchRequest request;
  request.plan = "night.toml";
  commands::BenchAnswer opened = commands::bench(request, world.get());
  REQUIRE_MESSAGE(opened.dialogue, render(opened.said));
  std::string line = "th1 " + typed.kind;
  for (const auto& [name, value] : typed.fields) {
    line += " " + name + "=" + value;
  }
  auto answer = opened.dialogue->take(line);
  Told told;
  if (!answer.taken && answer.said.empty()) {
    const std::string asked = answer.text.substr(std::string("TH-01: ").size());
    told.doubts = asked.substr(0, asked.find('?'));
    answer = opened.dialogue->take(sure ? "y" : "n");
  }
  told.again = answer.text.find("; the same again, undo takes it back") != std::string::npos;
  if (answer.taken) {
    told.entry = answer.taken->entry;
    told.consequences = answer.taken->consequences;
  }
  told.said = std::move(answer.said);
  return told;
}

/// The same motor three times, one for each door.
class Doors {
 public:
  Doors() {
    for (MemoryWorld& world : worlds_) {
      world.open_records(club_plan(1));
      world.files.files["night.toml"] = club_plan(1);
    }
  }
  /// log's, the file's and the bench's; the clock stands at `minute` past ten.
  std::array<Told, 3> take(int minute, const Typed& typed, bool sure = false) {
    const Moment now{kTen + 60 * minute};
    for (MemoryWorld& world : worlds_) {
      world.now = now;
    }
    return {by_log(worlds_[0], typed, sure),
            by_file(worlds_[1], typed, sure, fmt::format("2026-05-01 10:{:02}", minute)),
            by_bench(worlds_[2], typed, sure)};
  }
  /// Taken by all three.
  void taken(int minute, const Typed& typed, bool sure = false) {
    for (const Told& told : take(minute, typed, sure)) {
      REQUIRE_MESSAGE(told.entry, typed.kind << render(told.said) << told.doubts);
    }
  }
  MemoryWorld& world(std::size_t door) { return worlds_.at(door); }
  [[nodiscard]] std::string record(std::size_t door) const {
    return worlds_.at(door).disk.files.at("records/TH-01.toml").bytes;
  }

 private:
  static constexpr std::int64_t kTen = 1777629600;  ///< 2026-05-01 10:00 UTC
  std::array<MemoryWorld, 3> worlds_;
};

const Typed kWashed{"weighed", {{"stage", "washed"}, {"reading", "1.497 g"}}};
const Typed kTied{"tied", {{"loop", "366 mm"}}};

Typed wound(const std::string& turns) { return {"wound", {{"turns", turns}}}; }

Typed with(Typed typed, const std::string& field, const std::string& value) {
  typed.fields.emplace_back(field, value);
  return typed;
}

std::string time_of(const Told& told) {
  REQUIRE(told.entry);
  return told.entry->key.substr(0, std::string("20260501T100000Z").size());
}

}  // namespace

TEST_CASE("an evening through each door leaves the same record and says the same of what follows") {
  Doors doors;
  int minute = 0;
  for (const Typed& typed :
       {kWashed, kTied, wound("900"), wound("1000"), Typed{"flown", {{"time", "7:31"}}},
        Typed{"broke", {{"turns", "1100"}}}, Typed{"retired", {{"why", "perished"}}}}) {
    minute += 5;
    const std::array<Told, 3> told = doors.take(minute, typed);
    const Told& log = told[0];
    const Told& file = told[1];
    const Told& bench = told[2];
    CAPTURE(typed.kind);
    REQUIRE_MESSAGE(log.entry, render(log.said));
    REQUIRE_MESSAGE(file.entry, render(file.said));
    REQUIRE_MESSAGE(bench.entry, bench.doubts << render(bench.said));
    CHECK(log.entry->key.starts_with(fmt::format("20260501T10{:02}00Z-", minute)));
    CHECK(file.entry->key == log.entry->key);
    CHECK(bench.entry->key == log.entry->key);
    CHECK(file.consequences == log.consequences);
    CHECK(bench.consequences == log.consequences);
  }
  CHECK(doors.record(0).find("kind = \"broke\", turns = 1100") != std::string::npos);
  CHECK(doors.record(1) == doors.record(0));
  CHECK(doors.record(2) == doors.record(0));
}

TEST_CASE("what follows is told in the order of the work") {
  Doors doors;
  const auto [weighed, w2, w3] = doors.take(0, kWashed);
  REQUIRE(weighed.consequences.size() == 1);
  CHECK(weighed.consequences[0].find("within its window") != std::string::npos);
  doors.taken(5, kTied);
  doors.taken(10, wound("900"));
  for (const Told& more : doors.take(15, wound("1000"))) {
    REQUIRE(more.consequences.size() == 2);
    CHECK(more.consequences[0] == "more than ever before: 900 turns");
    CHECK(more.consequences[1].find("turns left before \"do not pass\"") != std::string::npos);
  }
}

TEST_CASE(
    "a slip is doubted in the same words at each door, stores nothing, and is taken when sure") {
  Doors doors;
  doors.taken(0, kWashed);
  const Typed slip{"tied", {{"loop", "366 cm"}}};
  const std::string before = doors.record(0);
  const auto [log, file, bench] = doors.take(5, slip);
  CHECK(log.doubts.find("looks like 366 mm") != std::string::npos);
  CHECK(file.doubts == log.doubts);
  CHECK(bench.doubts == log.doubts);
  for (std::size_t door = 0; door < 3; ++door) {
    CHECK(doors.record(door) == before);
  }
  doors.taken(10, slip, true);
  for (std::size_t door = 0; door < 3; ++door) {
    CHECK(doors.record(door).find("loop = \"366 cm\"") != std::string::npos);
  }
}

TEST_CASE("the same again within minutes is told at each door and stored all the same") {
  Doors doors;
  doors.taken(0, kTied);
  for (const Told& first : doors.take(5, wound("900"))) {
    REQUIRE(first.entry);
    CHECK_FALSE(first.again);
  }
  for (const Told& again : doors.take(10, wound("900"))) {
    REQUIRE(again.entry);
    CHECK(again.again);
  }
  for (const Told& later : doors.take(30, wound("900"))) {
    REQUIRE(later.entry);
    CHECK_FALSE(later.again);
  }
}

TEST_CASE(
    "a correction means an entry by the end of its key, at each door, and says what it replaces") {
  Doors doors;
  doors.taken(0, kTied);
  const auto first = doors.take(5, wound("900"));
  for (MemoryWorld* const world : {&doors.world(0), &doors.world(1), &doors.world(2)}) {
    world->now = Moment{1777629600 + 20 * 60};
  }
  const auto correcting = [&](std::size_t door) {
    REQUIRE(first.at(door).entry);
    const std::string& key = first.at(door).entry->key;
    return with(wound("990"), "corrects", key.substr(key.size() - 4));
  };
  const Told log = by_log(doors.world(0), correcting(0), false);
  const Told file = by_file(doors.world(1), correcting(1), false, "");
  const Told bench = by_bench(doors.world(2), correcting(2), false);
  for (const Told* const told : {&log, &file, &bench}) {
    REQUIRE_MESSAGE(told->entry, render(told->said));
    CHECK(told->entry->corrects == first[0].entry->key);
    CHECK(time_of(*told) == "20260501T102000Z");
    REQUIRE_FALSE(told->consequences.empty());
    CHECK(told->consequences[0] ==
          "replaces wound to 900 turns; counts at its time, 2026-05-01 10:05");
  }
  const Typed nothing = with(wound("990"), "corrects", "zzzz");
  CHECK(is_said(by_log(doors.world(0), nothing, false).said, "log-corrects"));
  CHECK(is_said(by_file(doors.world(1), nothing, false, "").said, "log-corrects"));
  CHECK(is_said(by_bench(doors.world(2), nothing, false).said, "log-corrects"));
}

TEST_CASE(
    "a clock that went back puts nothing before what was logged; a time that was said stands") {
  Doors doors;
  doors.taken(30, kTied);
  for (MemoryWorld* const world : {&doors.world(0), &doors.world(1), &doors.world(2)}) {
    world->now = Moment{1777629600};
  }
  CHECK(time_of(by_log(doors.world(0), wound("900"), false)) == "20260501T103000Z");
  CHECK(time_of(by_file(doors.world(1), wound("900"), false, "")) == "20260501T103000Z");
  CHECK(time_of(by_bench(doors.world(2), wound("900"), false)) == "20260501T103000Z");
  CHECK(time_of(by_log(doors.world(0), wound("800"), true, "2026-05-01 09:00")) ==
        "20260501T090000Z");
  CHECK(time_of(by_file(doors.world(1), wound("800"), true, "2026-05-01 09:00")) ==
        "20260501T090000Z");
}

TEST_CASE("a key that is there already is not given again") {
  MemoryWorld world;
  world.open_records(club_plan(1));
  const Told first = by_log(world, kTied, false);
  REQUIRE(first.entry);
  world.keys_given = 0;
  const Told second = by_log(world, wound("900"), false);
  REQUIRE(second.entry);
  CHECK(second.entry->key != first.entry->key);
  CHECK(time_of(second) == time_of(first));
}

TEST_CASE("a full disk stores nothing at any door and is said") {
  Doors doors;
  doors.taken(0, kTied);
  const std::string before = doors.record(0);
  for (std::size_t door = 0; door < 3; ++door) {
    doors.world(door).disk.cut_write(1, 0, false);
  }
  for (const Told& told : doors.take(5, wound("900"))) {
    CHECK_FALSE(told.entry);
    CHECK(told.consequences.empty());
    CHECK(has_errors(told.said));
  }
  for (std::size_t door = 0; door < 3; ++door) {
    CHECK(doors.record(door) == before);
  }
}

TEST_CASE("a claimed time that is none is an error") {
  CHECK_FALSE(commands::claimed_time("tuesday").ok());
  REQUIRE(commands::claimed_time("").ok());
  CHECK_FALSE(*commands::claimed_time(""));
  CHECK(**commands::claimed_time("2026-05-01 10:00") == Moment{1777629600});
}
