// SPDX-License-Identifier: MIT
#include "commands/print_records.h"

#include <doctest/doctest.h>

#include "calc/work_out.h"
#include "support/club_plan.h"
#include "support/memory_world.h"
#include "support/plan_text.h"
#include "tag/id.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

struct Compared {
  calc::Batch batch;
  Result<commands::RecordWork> work;
};

/// The plan held against what the world's ledger has.
Compared compared(const std::string& text, MemoryWorld& world, bool alone = false) {
  const auto plan = read(text);
  REQUIRE_MESSAGE(plan.ok(), said(plan.diagnostics()));
  auto batch = calc::work_out(*plan);
  REQUIRE_MESSAGE(batch.ok(), said(batch.diagnostics()));
  records::Ledger ledger(world.disk, "records");
  auto work = commands::compare_with_ledger(*batch, *plan, ledger, alone);
  return {std::move(*batch), std::move(work)};
}

}  // namespace

TEST_CASE("records are opened for the motors that have none; the others are kept") {
  MemoryWorld world;
  const auto fresh = compared(club_plan(2), world);
  REQUIRE(fresh.work.ok());
  CHECK(fresh.work->to_open.size() == 2);
  CHECK(fresh.work->kept == 0);
  world.open_records(club_plan(2));
  const auto more = compared(club_plan(3), world);
  REQUIRE_MESSAGE(more.work.ok(), said(more.work.diagnostics()));
  CHECK(more.work.diagnostics().empty());
  REQUIRE(more.work->to_open.size() == 1);
  CHECK(more.work->to_open.front().id == MotorId{"TH", 3});
  CHECK(more.work->to_open.front().check == tag::check_character(MotorId{"TH", 3}));
  CHECK(more.work->kept == 2);
}

TEST_CASE("a record with other figures is an error at the group, with the next free id") {
  MemoryWorld world;
  world.open_records(club_plan(2));
  const std::string other = club_plan(2, "strands = 4\n");
  const auto differs = compared(other, world);
  CHECK_FALSE(differs.work.ok());
  const std::string text = said(differs.work.diagnostics());
  CHECK_MESSAGE(text.find("have records with other figures: ") != std::string::npos, text);
  CHECK_MESSAGE(text.find("the next free one is TH-03: first = 3") != std::string::npos, text);
  CHECK(text.find("[print-alone]") == std::string::npos);
  const auto alone = compared(other, world, true);
  CHECK(said(alone.work.diagnostics()).find("[print-alone]") != std::string::npos);
}

TEST_CASE("another owner than the record's is a warning for all of them together") {
  MemoryWorld world;
  world.open_records(club_plan(2, "owner = \"ANNA\"\n"));
  const auto renamed = compared(club_plan(2, "owner = \"EVA\"\n"), world);
  REQUIRE(renamed.work.ok());
  REQUIRE(renamed.work.diagnostics().size() == 1);
  const Diagnostic& warned = renamed.work.diagnostics().front();
  CHECK(warned.code == "print-renamed");
  CHECK_MESSAGE(
      warned.message.find("(2 motors): the plan says owner \"EVA\", the record \"ANNA\"") !=
          std::string::npos,
      warned.message);
}

TEST_CASE("a motor that has moved on is brought up to its record and told of") {
  MemoryWorld world;
  world.open_records(club_plan(2));
  records::Ledger ledger(world.disk, "records");
  records::Entry tied;
  tied.key = "20260301T100000Z-aaaa";
  tied.kind = records::Kind::tied;
  tied.loop = Length::mm(200);
  const Diagnostics added = ledger.add({"TH", 2}, tied);
  REQUIRE_MESSAGE(added.empty(), said(added));
  const auto moved = compared(club_plan(2), world);
  REQUIRE(moved.work.ok());
  CHECK(moved.batch.motors[1].planned.loop.in_mm() == doctest::Approx(200));
  CHECK(moved.batch.motors[1].since == "tied");
  CHECK(moved.batch.motors[0].since.empty());
  CHECK(moved.work->again.label_of({"TH", 1}) == nullptr);
  CHECK(moved.work->again.label_of({"TH", 2}) != nullptr);
  const std::string text = said(moved.work.diagnostics());
  CHECK_MESSAGE(text.find(" is tied since the plan was made") != std::string::npos, text);
}

TEST_CASE("a ledger that can't be looked into is an error") {
  MemoryWorld world;
  world.open_records(club_plan(1));
  REQUIRE(compared(club_plan(1), world).work.ok());
  for (auto& [path, file] : world.disk.files) {
    file.bytes = "nonsense";
  }
  CHECK_FALSE(compared(club_plan(1), world).work.ok());
}
