// SPDX-License-Identifier: MIT
#include "commands/log.h"

#include <doctest/doctest.h>

#include "commands/exit_code.h"
#include "commands/log_many.h"
#include "commands/outcome.h"
#include "json/log_json.h"
#include "support/club_plan.h"
#include "support/memory_world.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

commands::LogRequest typed(const std::string& id, const std::string& kind,
                           const std::vector<std::string>& words) {
  commands::LogRequest request;
  request.id = id;
  request.kind = kind;
  request.words = words;
  return request;
}

commands::LogManyRequest of_file(const std::string& name) {
  commands::LogManyRequest request;
  request.from = name;
  return request;
}

}  // namespace

TEST_CASE("log's answer is the record before, the entry with its key, and what follows") {
  MemoryWorld world;
  world.open_records(club_plan(1));
  const commands::LogAnswer tied = commands::log(typed("th1", "tied", {"366", "mm"}), world.get());
  REQUIRE_MESSAGE(tied.taken, render(tied.said));
  CHECK(tied.taken->before.entries.empty());
  CHECK(tied.taken->entry.key == "20260501T100000Z-aaaa");
  CHECK(tied.taken->consequences == std::vector<std::string>{"it is now tied"});
  CHECK(tied.said.empty());
  CHECK(tied.taken_for.starts_with("no check character typed: taken for TH-01-"));
  CHECK(json::to_json(tied).compact() ==
        R"({"format": 1, "id": "TH-01", "key": "20260501T100000Z-aaaa", )"
        R"("consequences": ["it is now tied"]})");
  const std::string whole = tied.taken_for.substr(tied.taken_for.find("TH-01"), 7);
  const commands::LogAnswer wound = commands::log(typed(whole, "wound", {"900"}), world.get());
  REQUIRE_MESSAGE(wound.taken, render(wound.said));
  CHECK(wound.taken->before.entries.size() == 1);
  CHECK(wound.taken_for.empty());
}

TEST_CASE("all that is wrong with an entry is said at once, and nothing is stored") {
  MemoryWorld world;
  world.open_records(club_plan(1));
  commands::LogRequest request = typed("zz9", "wieghed", {});
  request.at = "tuesday";
  request.winder_ratio = "much";
  const commands::LogAnswer answer = commands::log(request, world.get());
  CHECK_FALSE(answer.taken);
  std::vector<std::string> codes;
  for (const Diagnostic& d : answer.said) {
    codes.push_back(d.code);
  }
  CHECK(codes == std::vector<std::string>{"none-record", "log-kind", "winder-ratio", "log-at"});
  CHECK(answer.taken_for.empty());
}

TEST_CASE("without a kind, or with an id beside a file, the request is a usage error") {
  MemoryWorld world;
  world.open_records(club_plan(1));
  const auto one = commands::log(typed("th1", "", {}), world.get());
  CHECK(commands::exit_code_of(one.said) == commands::kUsage);
  world.files.files["e.csv"] = "id,kind,loop\nth1,tied,366 mm\n";
  commands::LogManyRequest both = of_file("e.csv");
  both.id = "th1";
  CHECK(commands::exit_code_of(commands::log_many(both, world.get()).said) == commands::kUsage);
  CHECK(commands::log_many(of_file("e.csv"), world.get()).rows.size() == 1);
}

TEST_CASE("a file's rows are stored in their order, each with what follows from those before it") {
  MemoryWorld world;
  world.open_records(club_plan(2));
  world.files.input =
      "[[entries]]\nid = \"th2\"\nkind = \"tied\"\nloop = \"366 mm\"\n"
      "[[entries]]\nid = \"th1\"\nkind = \"note\"\ntext = \"dry\"\n"
      "[[entries]]\nid = \"th2\"\nkind = \"wound\"\nturns = 900\n";
  const auto answer = commands::log_many(of_file("-"), world.get());
  REQUIRE_MESSAGE(answer.rows.size() == 3, render(answer.said));
  CHECK(answer.rows[0].consequences == std::vector<std::string>{"it is now tied"});
  CHECK(answer.rows[0].whose.starts_with("TH-02-"));
  CHECK(answer.rows[1].consequences.empty());
  CHECK(answer.rows[2].id == MotorId{"TH", 2});
  CHECK(answer.rows[2].consequences.front().find("turns left before \"do not pass\"") !=
        std::string::npos);
  const std::string text = json::to_json(answer).compact();
  CHECK(text.starts_with(R"({"format": 1, "stored": 3, "there": 0, "entries": [{"id": "TH-02", )"));
  CHECK(text.find(R"("consequences": ["it is now tied"]})") != std::string::npos);
  const auto again = commands::log_many(of_file("-"), world.get());
  CHECK(again.rows.empty());
  CHECK(again.there == 3);
}

TEST_CASE("what follows from the rows of a long file is told only if asked for") {
  MemoryWorld world;
  world.open_records(club_plan(1));
  std::string rows = "id,kind,loop,text\nth1,tied,366 mm,\n";
  for (int i = 1; i < 101; ++i) {
    rows += "th1,note,,read " + std::to_string(i) + "\n";
  }
  world.files.files["e.csv"] = rows;
  const auto quiet = commands::log_many(of_file("e.csv"), world.get());
  REQUIRE_MESSAGE(quiet.rows.size() == 101, render(quiet.said));
  CHECK(quiet.rows[0].consequences.empty());
  MemoryWorld other;
  other.open_records(club_plan(1));
  other.files.files["e.csv"] = rows;
  commands::LogManyRequest request = of_file("e.csv");
  request.with_consequences = true;
  const auto told = commands::log_many(request, other.get());
  REQUIRE_MESSAGE(told.rows.size() == 101, render(told.said));
  CHECK(told.rows[0].consequences == std::vector<std::string>{"it is now tied"});
}

TEST_CASE("one wrong row and no row is stored; the fault is placed in the file") {
  MemoryWorld world;
  world.open_records(club_plan(1));
  const std::string good = "id,kind,loop\nth1,tied,366 mm\n";
  world.files.files["e.csv"] = good + "th1,tied,366 cm\n";
  const auto answer = commands::log_many(of_file("e.csv"), world.get());
  CHECK(answer.rows.empty());
  REQUIRE(has_errors(answer.said));
  CHECK(answer.said.front().code == "log-doubt");
  CHECK(answer.said.front().place.file == "e.csv");
  CHECK(answer.said.front().place.line == 3);
  CHECK(world.disk.files.at("records/TH-01.toml").bytes.find("kind = \"tied\"") ==
        std::string::npos);
  world.files.files["e.csv"] = good;
  CHECK(commands::log_many(of_file("e.csv"), world.get()).rows.size() == 1);
}
