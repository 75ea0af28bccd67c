// SPDX-License-Identifier: MIT
#include "records/ledger.h"

#include <doctest/doctest.h>

#include "samples.h"
#include "support/memory_disk.h"

using namespace loopledger;
using namespace loopledger::records;
using namespace loopledger::test;

namespace {

const std::string kPath = "club/TH-01.toml";
const MotorId kId{"TH", 1};

Entry note_of(const std::string& key, const std::string& text) {
  return entry_of(key, Kind::note, {{"text", text}});
}

struct Bench {
  MemoryDisk disk;
  Ledger ledger{disk, "club"};
  Bench() { REQUIRE(ledger.open({{kId, 'T', small_planned()}}).empty()); }
  [[nodiscard]] std::string& bytes() { return disk.files.at(kPath).bytes; }
};

}  // namespace

TEST_CASE("an opened record is read back, entries are added in order") {
  Bench b;
  REQUIRE(b.ledger.add(kId, note_of("20260501T100000Z-aaaa", "one")).empty());
  REQUIRE(b.ledger.add(kId, note_of("20260401T100000Z-aaab", "two")).empty());
  const auto record = b.ledger.read(kId);
  REQUIRE(record);
  CHECK(record.diagnostics().empty());
  REQUIRE(record->entries.size() == 2);
  CHECK(record->entries[0].text == "one");
  CHECK(record->entries[1].text == "two");
  CHECK(b.disk.locks_taken() == 2);
  CHECK(b.disk.locked.empty());
}

TEST_CASE("an id that exists is never given again, and the next free one is named") {
  Bench b;
  const std::string before = b.bytes();
  REQUIRE(b.ledger.open({{{"TH", 7}, 'X', small_planned()}}).empty());
  const auto problems = b.ledger.open({{kId, 'T', full_planned()}});
  CHECK(render(problems) ==
        "club/TH-01.toml: error: TH-01 has a record already [record-exists]\n"
        "  hint: the next free one is TH-08\n");
  CHECK(b.bytes() == before);
  CHECK(*b.ledger.next_free("ab") == MotorId{"AB", 1});
  REQUIRE(b.ledger.open({{{"ZZ", kMotorNumberMax}, 'X', small_planned()}}).empty());
  CHECK_FALSE(b.ledger.next_free("ZZ"));
}

TEST_CASE("an id the ledger does not hold is said so, for reading and adding") {
  Bench b;
  CHECK(b.ledger.read({"TH", 2}).diagnostics().front().code == "none-record");
  const auto problems = b.ledger.add({"TH", 2}, note_of("20260501T100000Z-aaaa", "x"));
  CHECK(render(problems) ==
        "error: the ledger in club holds no TH-02 [none-record]\n"
        "  hint: `loopledger list` shows what it holds\n");
}

TEST_CASE("an id never becomes a path that leaves the folder") {
  MemoryDisk disk;
  const Ledger ledger(disk, "club");
  CHECK(ledger.path_of({"TH", 1}) == kPath);
  for (const char* stem : {"../X", "", "A/B", "TOOLONGSTEM", ".", "A\nB"}) {
    CHECK(ledger.path_of({stem, 1}).empty());
  }
  CHECK(ledger.path_of({"TH", 0}).empty());
  CHECK(ledger.path_of({"TH", 10000}).empty());
}

TEST_CASE("nothing is added to a torn record until it is mended") {
  Bench b;
  REQUIRE(b.ledger.add(kId, note_of("20260501T100000Z-aaaa", "one")).empty());
  b.bytes() += "\"20260501T100100Z-aaab\" = { ki";
  const std::string torn = b.bytes();
  const auto problems = b.ledger.add(kId, note_of("20260501T100200Z-aaac", "two"));
  CHECK(render(problems) ==
        "club/TH-01.toml: error: nothing is added to a record with a torn end [record-torn]\n"
        "  hint: `loopledger mend club/TH-01.toml` repairs it\n");
  CHECK(b.bytes() == torn);

  const auto mended = mend_file(b.disk, kPath, false, Moment{1777629600});
  REQUIRE(mended);
  CHECK(mended->left.empty());
  CHECK(b.disk.files.at(kPath + ".damaged-20260501T100000Z").bytes ==
        "\"20260501T100100Z-aaab\" = { ki");
  REQUIRE(b.ledger.add(kId, note_of("20260501T100200Z-aaac", "two")).empty());
  CHECK(b.ledger.read(kId)->entries.size() == 2);
  CHECK(b.ledger.holding()->ids == std::vector<MotorId>{kId});
  CHECK(b.ledger.holding()->passed_over.empty());
}

TEST_CASE("a write cut short is taken back, and the record stays as it was") {
  Bench b;
  const std::string before = b.bytes();
  const Entry entry = note_of("20260501T100000Z-aaaa", "one");
  for (std::size_t bytes = 0; bytes < 60; bytes += 7) {
    b.disk.cut_write(1, bytes, false);
    CHECK(b.ledger.add(kId, entry).front().code == "disk-write");
    CHECK(b.bytes() == before);
  }
  CHECK(b.ledger.add(kId, entry).empty());
}

TEST_CASE("killed at any moment of adding, no whole entry is lost and none is wrong") {
  const Entry first = note_of("20260501T100000Z-aaaa", "one");
  const Entry second = note_of("20260501T100100Z-aaab", "two");
  const std::size_t length = entry_line(second)->size();
  for (std::size_t bytes = 0; bytes <= length; ++bytes) {
    CAPTURE(bytes);
    Bench b;
    REQUIRE(b.ledger.add(kId, first).empty());
    b.disk.cut_write(1, bytes, true);
    (void)b.ledger.add(kId, second);
    MemoryDisk rebooted;
    rebooted.files = b.disk.files;
    Ledger after(rebooted, "club");
    const auto record = after.read(kId);
    REQUIRE(record);
    REQUIRE(record->entries.size() == (bytes + 1 >= length ? 2U : 1U));
    CHECK(record->entries[0].text == "one");
    CHECK_FALSE(record->entries[0].edited);
    CHECK(record->torn == (bytes > 0 && bytes < length));
  }
}

TEST_CASE("a record is opened whole or not at all, and opening again is harmless") {
  MemoryDisk disk;
  Ledger ledger(disk, "club");
  const std::vector<NewRecord> two{{{"TH", 1}, 'T', small_planned()},
                                   {{"TH", 2}, 'S', small_planned()}};
  disk.cut_write(2, 100, false);
  CHECK(ledger.open(two).front().code == "disk-write");
  CHECK(disk.files.size() == 1);
  disk.lose_power();
  CHECK(disk.files.size() == 1);  // what was opened before the failure is certain
  CHECK(ledger.open({two[1]}).empty());
  CHECK(ledger.read({"TH", 2}));
}

TEST_CASE("while another program writes to a record, nothing is added") {
  Bench b;
  const std::string before = b.bytes();
  b.disk.locked.insert(kPath);
  CHECK(b.ledger.add(kId, note_of("20260501T100000Z-aaaa", "x")).front().code == "disk-lock");
  CHECK(b.bytes() == before);
}

TEST_CASE("a correction must name an entry, and a key is used once") {
  Bench b;
  Entry fix = note_of("20260501T100100Z-aaab", "two");
  fix.corrects = "20260501T100000Z-aaaa";
  CHECK(b.ledger.add(kId, fix).front().code == "record-corrects");
  REQUIRE(b.ledger.add(kId, note_of("20260501T100000Z-aaaa", "one")).empty());
  REQUIRE(b.ledger.add(kId, fix).empty());
  CHECK(b.ledger.add(kId, fix).front().code == "record-key");
  const auto record = b.ledger.read(kId);
  REQUIRE(record->entries.size() == 2);
  CHECK(record->entries[1].corrects == record->entries[0].key);
}

TEST_CASE("foreign files are named and passed over, a record under a wrong name is told") {
  Bench b;
  b.disk.files["club/notes.txt"] = {"hello", true};
  b.disk.files["club/th-02.toml"] = {"", true};
  b.disk.files["club/TH-03.toml"] = b.disk.files[kPath];
  b.disk.files["club/.hidden"] = {"", true};
  const auto held = b.ledger.holding();
  REQUIRE(held);
  CHECK(held->ids == std::vector<MotorId>{{"TH", 1}, {"TH", 3}});
  CHECK(render(held->passed_over) ==
        "club/notes.txt: note: no record by its name; passed over [record-foreign]\n"
        "  hint: records are named like TH-01.toml\n"
        "club/th-02.toml: note: no record by its name; passed over [record-foreign]\n"
        "  hint: records are named like TH-01.toml\n");
  CHECK(render(b.ledger.read({"TH", 3}).diagnostics()) ==
        "club/TH-03.toml: error: the file is named TH-03 but is the record of TH-01 [record-id]\n"
        "  hint: give the file its right name\n");
}

TEST_CASE("a folder that is not there holds nothing") {
  MemoryDisk disk;
  Ledger ledger(disk, "nowhere");
  REQUIRE(ledger.holding());
  CHECK(ledger.holding()->ids.empty());
  CHECK(*ledger.next_free("TH") == MotorId{"TH", 1});
}
