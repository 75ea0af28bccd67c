// SPDX-License-Identifier: MIT
//
// A byte order mark, as some editors put it before a text when they save it, is no damage.
#include <doctest/doctest.h>

#include "records/ledger.h"
#include "records/mend.h"
#include "records/read.h"
#include "records/reads_back.h"
#include "samples.h"
#include "support/memory_disk.h"

using namespace loopledger;
using namespace loopledger::records;
using namespace loopledger::test;

namespace {

const std::string kMark = "\xEF\xBB\xBF";

}  // namespace

TEST_CASE("a record with a byte order mark reads as it did without") {
  const auto plain = read_record(sample_text(), "TH-01.toml");
  const auto marked = read_record(kMark + sample_text(), "TH-01.toml");
  REQUIRE(plain);
  REQUIRE(marked);
  CHECK(marked.diagnostics().size() == plain.diagnostics().size());
  CHECK_FALSE(marked->planned_edited);
  CHECK_FALSE(marked->torn);
  CHECK(marked->entries.size() == plain->entries.size());
}

TEST_CASE("a record with a byte order mark is added to, and there is nothing to mend") {
  MemoryDisk disk;
  Ledger ledger{disk, "club"};
  const MotorId id{"TH", 1};
  REQUIRE(ledger.open({{id, 'T', small_planned()}}).empty());
  std::string& bytes = disk.files.at("club/TH-01.toml").bytes;
  bytes = kMark + bytes;
  CHECK(ledger.add(id, entry_of("20260501T100000Z-aaaa", Kind::note, {{"text", "one"}})).empty());
  const auto record = ledger.read(id);
  REQUIRE(record);
  CHECK(record.diagnostics().empty());
  CHECK(record->entries.size() == 1);
  const Mended mended = mend_text(bytes, "TH-01.toml", false);
  CHECK(mended.done.empty());
  CHECK(mended.left.empty());
}

TEST_CASE("a torn head with a byte order mark is told as torn") {
  const auto record = read_record(kMark + sample_text().substr(0, 60), "TH-01.toml");
  REQUIRE_FALSE(record.ok());
  CHECK(record.diagnostics().front().code == "record-torn");
}

TEST_CASE("no record is opened that could not be read again, and none beside it") {
  Planned cranks = full_planned();
  REQUIRE(!cranks.break_in.empty());
  cranks.break_in.front().cranks = 100'001;
  Planned turns = small_planned();
  turns.wind_to = Turns::of(2e9);
  CHECK(new_record_problems({{"TH", 1}, 'T', full_planned()}).empty());
  for (const Planned& planned : {cranks, turns}) {
    MemoryDisk disk;
    Ledger ledger{disk, "club"};
    const Diagnostics problems =
        ledger.open({{{"TH", 1}, 'T', small_planned()}, {{"TH", 2}, 'T', planned}});
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].code == "record-value");
    CHECK(problems[0].message.find("TH-02: its record could not be read again") == 0);
    CHECK(disk.files.empty());
  }
}
