// SPDX-License-Identifier: MIT
#include "commands/list.h"

#include "commands/exit_code.h"
#include "commands/outcome.h"
#include "logged.h"

using namespace loopledger;
using namespace loopledger::test;
using records::Kind;

namespace {

std::string ids_of(const commands::ListAnswer& answer) {
  REQUIRE(answer.motors);
  std::string out;
  for (const commands::MotorRow& row : *answer.motors) {
    out += printed(row.id) + " ";
  }
  return out;
}

std::string order(MemoryWorld& world, const std::string& sort, bool reverse = false) {
  commands::ListRequest request;
  request.sort = sort;
  request.reverse = reverse;
  return ids_of(commands::list(request, world.get()));
}

/// TH-01 wound further, TH-02 with more torque, TH-03 and QX-01 never.
void wind_two(MemoryWorld& world) {
  for (const int number : {1, 2}) {
    logged(world, {"TH", number}, 1, Kind::tied, {{"loop", "300 mm"}});
  }
  logged(world, {"TH", 1}, 3, Kind::wound, {{"turns", "1100"}, {"torque", "30 gf.cm"}});
  logged(world, {"TH", 2}, 2, Kind::wound, {{"turns", "1000"}, {"torque", "41 gf.cm"}});
}

}  // namespace

TEST_CASE("list sorts most first what is most wanted, and the unknown last either way") {
  MemoryWorld world;
  world.open_records(kClubNight);
  wind_two(world);
  CHECK(order(world, "id") == "QX-01 TH-01 TH-02 TH-03 ");
  CHECK(order(world, "id", true) == "TH-03 TH-02 TH-01 QX-01 ");
  CHECK(order(world, "turns") == "TH-01 TH-02 QX-01 TH-03 ");
  CHECK(order(world, "turns", true) == "TH-02 TH-01 QX-01 TH-03 ");
  CHECK(order(world, "torque") == "TH-02 TH-01 QX-01 TH-03 ");
  CHECK(order(world, "date") == "TH-01 TH-02 QX-01 TH-03 ");  // the newest first
  CHECK(order(world, "date", true) == "QX-01 TH-03 TH-02 TH-01 ");
  logged(world, {"TH", 3}, 4, Kind::weighed, {{"stage", "washed"}, {"reading", "1.49 g"}});
  logged(world, {"QX", 1}, 4, Kind::weighed, {{"stage", "washed"}, {"reading", "0.80 g"}});
  CHECK(order(world, "washed") == "QX-01 TH-03 TH-01 TH-02 ");
  CHECK(order(world, "washed", true) == "TH-03 QX-01 TH-01 TH-02 ");
}

TEST_CASE("what is equal in a column stays in the order of the ids") {
  MemoryWorld world;
  world.open_records(kClubNight);
  CHECK(order(world, "owner") == "TH-01 TH-02 TH-03 QX-01 ");
  CHECK(order(world, "owner", true) == "QX-01 TH-01 TH-02 TH-03 ");
  CHECK(order(world, "loop") == "QX-01 TH-01 TH-02 TH-03 ");
  CHECK(order(world, "state") == "QX-01 TH-01 TH-02 TH-03 ");
  CHECK(order(world, "rule") == "QX-01 TH-01 TH-02 TH-03 ");
  CHECK(order(world, "lot") == "QX-01 TH-01 TH-02 TH-03 ");
  CHECK(order(world, "for", true) == "TH-01 TH-02 TH-03 QX-01 ");
}

TEST_CASE("every column can be sorted by") {
  MemoryWorld world;
  world.open_records(kClubNight);
  for (const std::string& column : commands::list_columns()) {
    CAPTURE(column);
    CHECK(order(world, column).size() == std::string("QX-01 TH-01 TH-02 TH-03 ").size());
  }
}

TEST_CASE("list's filters are taken together") {
  MemoryWorld world;
  world.open_records(kClubNight);
  wind_two(world);
  commands::ListRequest request;
  request.only.owner = "anna";
  CHECK(ids_of(commands::list(request, world.get())) == "TH-01 TH-02 TH-03 ");
  request.state = "planned";
  CHECK(ids_of(commands::list(request, world.get())) == "TH-03 ");
  request.only = {};
  CHECK(ids_of(commands::list(request, world.get())) == "QX-01 TH-03 ");
  request.state.clear();
  request.stale = true;
  CHECK(ids_of(commands::list(request, world.get())) == "TH-01 TH-02 ");
}

TEST_CASE("an empty list says which kind of nothing it is") {
  MemoryWorld world;
  commands::ListRequest request;
  const commands::ListAnswer no_folder = commands::list(request, world.get());
  CHECK(codes(no_folder.said) == "none-record ");
  CHECK(commands::exit_code_of(no_folder.said) == commands::kNothingFound);
  CHECK(no_folder.none.empty());
  CHECK(ids_of(no_folder).empty());

  world.files.folders.insert("records");
  const commands::ListAnswer no_records = commands::list(request, world.get());
  CHECK(no_records.said.empty());
  CHECK(no_records.none == "No records in records");

  world.open_records(kClubNight);
  request.only.owner = "Zoë";
  const commands::ListAnswer no_owner = commands::list(request, world.get());
  CHECK(codes(no_owner.said) == "list-none ");
  CHECK(commands::exit_code_of(no_owner.said) == commands::kDone);
  CHECK(no_owner.none == "No such motors in records");
  request.only = {"BEN", "club", ""};  // each is there, though not together
  CHECK(commands::list(request, world.get()).said.empty());
}

TEST_CASE("words that list does not know are usage errors, and nothing is read") {
  MemoryWorld world;
  world.open_records(kClubNight);
  commands::ListRequest request;
  request.state = "lost";
  request.sort = "colour";
  const commands::ListAnswer answer = commands::list(request, world.get());
  CHECK(codes(answer.said) == "usage-value usage-value ");
  CHECK(answer.said.front().message ==
        "--state: expected planned, tied, broken_in, flown or retired, found \"lost\"");
  CHECK_FALSE(answer.motors);
}

TEST_CASE("a record that can't be read is named, the others are listed") {
  MemoryWorld world;
  world.open_records(kClubNight);
  world.disk.files.at("records/TH-02.toml").bytes = "hello\n";
  const commands::ListAnswer answer = commands::list({}, world.get());
  CHECK(ids_of(answer) == "QX-01 TH-01 TH-03 ");
  CHECK_FALSE(answer.said.empty());
  CHECK(commands::exit_code_of(answer.said) == commands::kDone);
}
