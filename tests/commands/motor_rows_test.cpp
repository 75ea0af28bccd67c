// SPDX-License-Identifier: MIT
#include "commands/motor_rows.h"

#include <algorithm>

#include "logged.h"

using namespace loopledger;
using namespace loopledger::test;
using commands::MotorRow;
using records::Kind;

namespace {

commands::MotorRows all_rows(MemoryWorld& world) {
  const auto held = records::Ledger(world.disk, "records").holding();
  REQUIRE(held);
  return commands::read_motors(world.get(), "records", held->ids,
                               [](const MotorRow&) { return true; });
}

MotorRow row_of(MemoryWorld& world, const MotorId& id) {
  const commands::MotorRows all = all_rows(world);
  const auto at = std::ranges::find(all.rows, id, &MotorRow::id);
  REQUIRE(at != all.rows.end());
  return *at;
}

}  // namespace

TEST_CASE("a motor that was only planned has the plan's fields and nothing that was read") {
  MemoryWorld world;
  world.open_records(kClubNight);
  const MotorRow row = row_of(world, {"TH", 1});
  CHECK(row.owner == "ANNA");
  CHECK(row.purpose == "Heron");
  CHECK(row.rule == "club");
  CHECK(row.strip == "tan");
  CHECK(row.lot == "May");
  CHECK(row.state == motor::State::planned);
  CHECK(row.loop_is == LoopIs::planned);
  CHECK(row.last == "2026-02-05");
  CHECK_FALSE(row.washed);
  CHECK_FALSE(row.best);
  CHECK(row.full_winds == 0);
  CHECK(row.mark.empty());
  CHECK_FALSE(row.stale);
}

TEST_CASE("a row follows its motor through its life") {
  MemoryWorld world;
  world.open_records(kClubNight);
  const MotorId id{"TH", 2};
  logged(world, id, 1, Kind::weighed, {{"stage", "washed"}, {"reading", "1.497 g"}});
  logged(world, id, 2, Kind::tied, {{"loop", "300 mm"}});
  const MotorRow tied = row_of(world, id);
  REQUIRE(tied.washed);
  CHECK(tied.washed->in_g() == doctest::Approx(1.497));
  CHECK(tied.state == motor::State::tied);
  CHECK(tied.loop_is == LoopIs::tied);
  CHECK(tied.loop.in_mm() == doctest::Approx(300));
  CHECK(tied.last == "2026-03-02");

  logged(world, id, 3, Kind::break_in, {{"loop_after", "308 mm"}});
  logged(world, id, 4, Kind::wound, {{"turns", "1000"}});
  logged(world, id, 5, Kind::wound, {{"turns", "1100"}, {"torque", "41 gf.cm"}});
  const MotorRow wound = row_of(world, id);
  CHECK(wound.state == motor::State::broken_in);
  CHECK(wound.loop_is == LoopIs::broken_in);
  CHECK(wound.loop.in_mm() == doctest::Approx(308));
  REQUIRE(wound.best);
  CHECK(wound.best->turns.count() == 1100);
  REQUIRE(wound.best->torque);
  CHECK(wound.best->torque->in_gf_cm() == doctest::Approx(41));
  CHECK(wound.full_winds == 1);
  CHECK(wound.stale);  // its bag still has the build night's slip
  CHECK(wound.last == "2026-03-05");

  logged(world, id, 6, Kind::retired);
  const MotorRow retired = row_of(world, id);
  CHECK(retired.state == motor::State::retired);
  CHECK_FALSE(retired.stale);
}

TEST_CASE("damage shows in the row, and what can't be read at all is named and passed over") {
  MemoryWorld world;
  world.open_records(kClubNight);
  std::string& head = world.disk.files.at("records/TH-01.toml").bytes;
  const std::size_t at = head.find("owner = \"ANNA\"");
  REQUIRE(at != std::string::npos);
  head.replace(at, 14, "owner = \"ANNE\"");
  world.disk.files.at("records/TH-02.toml").bytes += "\"20260501T";
  world.disk.files.at("records/TH-03.toml").bytes = "hello\n";
  const commands::MotorRows all = all_rows(world);
  REQUIRE(all.rows.size() == 3);
  CHECK(all.rows[0].id == MotorId{"QX", 1});
  CHECK(all.rows[1].planned_edited);
  CHECK_FALSE(all.rows[1].mark.empty());
  CHECK(all.rows[2].torn);
  REQUIRE_FALSE(all.problems.empty());
  for (const Diagnostic& problem : all.problems) {
    CHECK(problem.severity != Severity::error);
  }
  CHECK(render(all.problems).find("records/TH-03.toml") != std::string::npos);
}

TEST_CASE("rows keep the order of the ids and only those wanted, whatever the threads") {
  MemoryWorld world;
  std::string plan(kClubNight);
  const std::size_t at = plan.find("count = 3");
  REQUIRE(at != std::string::npos);
  world.open_records(plan.replace(at, 9, "count = 40"));
  const auto held = records::Ledger(world.disk, "records").holding();
  REQUIRE(held);
  std::vector<MotorId> ids;
  for (int i = 0; i < 30; ++i) {  // enough for several threads
    ids.insert(ids.end(), held->ids.begin(), held->ids.end());
  }
  const auto wanted = [](const MotorRow& row) { return row.id.number % 2 == 1; };
  const auto order = [&](unsigned threads) {
    commands::World several = world.get();
    several.threads = threads;
    std::string out;
    for (const MotorRow& row : commands::read_motors(several, "records", ids, wanted).rows) {
      out += printed(row.id) + " ";
    }
    return out;
  };
  const std::string one = order(1);
  CHECK(one.starts_with("QX-01 TH-01 TH-03 "));
  CHECK(order(4) == one);
}

TEST_CASE("a lot is meant in any case and with blanks; a strip without one by its own name") {
  CHECK(commands::is_of_lot("May", "tan", " mAY "));
  CHECK_FALSE(commands::is_of_lot("May", "tan", "tan"));
  CHECK(commands::is_of_lot("", "Tan", "tan"));
  CHECK_FALSE(commands::is_of_lot("May", "tan", "Ma"));
}
