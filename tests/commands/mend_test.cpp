// SPDX-License-Identifier: MIT
#include "commands/mend.h"

#include "commands/exit_code.h"
#include "logged.h"

using namespace loopledger;
using namespace loopledger::test;

TEST_CASE("mend takes an id or a path, and says what it did") {
  for (const char* file : {"th1", "records/TH-01.toml"}) {
    CAPTURE(file);
    MemoryWorld world;
    world.open_records(kClubNight);
    const std::string whole = world.disk.files.at("records/TH-01.toml").bytes;
    world.disk.files.at("records/TH-01.toml").bytes += "\"20260501T";
    const commands::MendAnswer answer = commands::mend({file, {}, false}, world.get());
    CHECK(answer.path == "records/TH-01.toml");
    REQUIRE(answer.done);
    CHECK(answer.done->size() == 2);  // the torn line is gone, and kept beside the record
    CHECK(answer.said.empty());
    CHECK(answer.exit_code == commands::kDone);
    CHECK(world.disk.files.at("records/TH-01.toml").bytes == whole);
    const commands::MendAnswer again = commands::mend({file, {}, false}, world.get());
    REQUIRE(again.done);
    CHECK(again.done->empty());
    CHECK(again.exit_code == commands::kDone);
  }
}

TEST_CASE("what only a person can put right is left, and is no success") {
  MemoryWorld world;
  world.open_records(kClubNight);
  std::string& text = world.disk.files.at("records/TH-01.toml").bytes;
  const std::size_t at = text.find("\"ANNA\"");
  REQUIRE(at != std::string::npos);
  text.replace(at, 6, "\"ANNE\"");
  const commands::MendAnswer answer = commands::mend({"th1", {}, false}, world.get());
  REQUIRE(answer.done);
  CHECK(answer.done->empty());
  CHECK_FALSE(answer.said.empty());
  CHECK(answer.exit_code == commands::kInputErrors);
  const commands::MendAnswer accepted = commands::mend({"th1", {}, true}, world.get());
  REQUIRE(accepted.done);
  CHECK_FALSE(accepted.done->empty());
  CHECK(accepted.exit_code == commands::kDone);
}

TEST_CASE("mend of what is not there does nothing") {
  MemoryWorld world;
  const commands::MendAnswer id = commands::mend({"th1", {}, false}, world.get());
  CHECK(codes(id.said) == "none-record ");
  CHECK(id.path.empty());
  CHECK_FALSE(id.done);
  CHECK(id.exit_code == commands::kNothingFound);
  const commands::MendAnswer path = commands::mend({"gone.toml", {}, false}, world.get());
  CHECK_FALSE(path.done);
  CHECK(path.exit_code == commands::kEnvironment);
  CHECK(commands::mend({"TH-01-A", {}, false}, world.get()).exit_code == commands::kInputErrors);
}
