// SPDX-License-Identifier: MIT
#include "commands/show.h"

#include <doctest/doctest.h>

#include "commands/exit_code.h"
#include "commands/outcome.h"
#include "support/club_plan.h"
#include "support/memory_world.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

commands::ShowRequest asked_for(const std::string& id) {
  commands::ShowRequest request;
  request.id = id;
  return request;
}

}  // namespace

TEST_CASE("show's answer is the motor's record and the day it is shown on") {
  MemoryWorld world;
  world.open_records(club_plan(2));
  world.now = midnight_utc({2026, 6, 1});
  commands::ShowRequest request = asked_for("th2");
  request.today.temperature = "25 degC";
  const commands::ShowAnswer answer = commands::show(request, world.get());
  REQUIRE(answer.record);
  CHECK(answer.record->id == MotorId{"TH", 2});
  CHECK(answer.said.empty());
  CHECK(answer.today.now == midnight_utc({2026, 6, 1}));
  REQUIRE(answer.today.temperature);
  CHECK(answer.today.temperature->in_deg_c() == doctest::Approx(25));
}

TEST_CASE("records are looked for where the request says, else where the environment does") {
  MemoryWorld world;
  world.open_records(club_plan(1), "winter");
  commands::ShowRequest request = asked_for("th1");
  const commands::ShowAnswer nowhere = commands::show(request, world.get());
  CHECK_FALSE(nowhere.record);
  CHECK(commands::exit_code_of(nowhere.said) == commands::kNothingFound);
  world.env["LOOPLEDGER_RECORDS"] = "winter";
  CHECK(commands::show(request, world.get()).record);
  request.records = "summer";
  CHECK_FALSE(commands::show(request, world.get()).record);
}

TEST_CASE("an id that no record has is answered with the nearest that has one") {
  MemoryWorld world;
  world.open_records(club_plan(1));
  const commands::ShowAnswer answer = commands::show(asked_for("TN-01"), world.get());
  CHECK_FALSE(answer.record);
  REQUIRE(answer.said.size() == 1);
  CHECK(answer.said.front().code == "none-record");
  CHECK(answer.said.front().hint == "did you mean TH-01?");
}

TEST_CASE("of a record whose head is broken the entries that read are shown") {
  MemoryWorld world;
  world.open_records(club_plan(1));
  std::string& text = world.disk.files.at("records/TH-01.toml").bytes;
  const std::size_t at = text.find("strands = ");
  REQUIRE(at != std::string::npos);
  text.insert(at, "= ");
  text += "\"20260501T100000Z-aaaa\" = { kind = \"note\", text = \"short\" }\n";
  const commands::ShowAnswer answer = commands::show(asked_for("th1"), world.get());
  CHECK_FALSE(answer.record);
  CHECK(commands::exit_code_of(answer.said) == commands::kInputErrors);
  REQUIRE(answer.entries_only.size() == 1);
  CHECK(answer.entries_only.front().text == "short");
}

TEST_CASE("what is wrong with the day's options is said before a record is looked for") {
  MemoryWorld world;
  commands::ShowRequest request = asked_for("th1");
  request.today.launch = "0 gf.cm";
  const commands::ShowAnswer answer = commands::show(request, world.get());
  CHECK_FALSE(answer.record);
  REQUIRE(answer.said.size() == 1);
  CHECK(answer.said.front().code == "today-launch");
}
