// SPDX-License-Identifier: MIT
//
// Many entries at once: all or none, whichever write fails and wherever.
#include <doctest/doctest.h>

#include "records/ledger.h"
#include "samples.h"
#include "support/memory_disk.h"

using namespace loopledger;
using namespace loopledger::records;
using namespace loopledger::test;

namespace {

struct Three {
  MemoryDisk disk;
  Ledger ledger{disk, "club"};
  std::vector<Ledger::Addition> additions;
  Three() {
    std::vector<NewRecord> fresh;
    for (int n = 1; n <= 3; ++n) {
      fresh.push_back({{"TH", n}, 'T', small_planned()});
    }
    REQUIRE(ledger.open(fresh).empty());
    for (int i = 0; i < 6; ++i) {
      additions.push_back({{"TH", 3 - i % 3},
                           entry_of("20260501T10000" + std::to_string(i) + "Z-aaaa", Kind::note,
                                    {{"text", "entry " + std::to_string(i)}})});
    }
  }
  [[nodiscard]] std::string all() const {
    std::string bytes;
    for (const auto& [path, file] : disk.files) {
      bytes += path + "\n" + file.bytes;
    }
    return bytes;
  }
  [[nodiscard]] std::string code_of_adding() {
    const Diagnostics problems = ledger.add_all(additions, failed);
    return problems.empty() ? "" : problems.front().code;
  }
  std::size_t failed = 0;
};

}  // namespace

TEST_CASE("many entries go to their records in their order, each record locked once") {
  Three t;
  const int locks = t.disk.locks_taken();
  CHECK(t.code_of_adding().empty());
  CHECK(t.disk.locks_taken() == locks + 3);
  CHECK(t.disk.locked.empty());
  for (int n = 1; n <= 3; ++n) {
    const auto record = t.ledger.read({"TH", n});
    REQUIRE(record);
    CHECK(record.diagnostics().empty());
    REQUIRE(record->entries.size() == 2);
    CHECK(record->entries[0].text == "entry " + std::to_string(3 - n));
    CHECK(record->entries[1].text == "entry " + std::to_string(6 - n));
  }
}

TEST_CASE("whichever write fails and however short it is, no record keeps anything") {
  for (int write = 1; write <= 3; ++write) {
    for (const std::size_t bytes : {0U, 1U, 40U, 100U}) {
      CAPTURE(write);
      CAPTURE(bytes);
      Three t;
      const std::string before = t.all();
      t.disk.cut_write(write, bytes, false);
      CHECK(t.code_of_adding() == "disk-write");
      CHECK(t.all() == before);
      CHECK(t.disk.locked.empty());
      // The records are written in the order of their ids: TH-01's first entry is the third.
      CHECK(t.failed == static_cast<std::size_t>(3 - write));
      CHECK(t.code_of_adding().empty());
    }
  }
}

TEST_CASE("what can't be added is found before the first write") {
  Three locked;
  locked.disk.locked.insert("club/TH-02.toml");
  const std::string before = locked.all();
  CHECK(locked.code_of_adding() == "disk-lock");
  CHECK(locked.failed == 1);
  CHECK(locked.all() == before);
  CHECK(locked.disk.locked.size() == 1);

  Three torn;
  torn.disk.files.at("club/TH-01.toml").bytes += "\"2026";
  CHECK(torn.code_of_adding() == "record-torn");
  CHECK(torn.failed == 2);

  Three twice;
  twice.additions[3].entry.key = twice.additions[0].entry.key;
  CHECK(twice.code_of_adding() == "record-key");
  CHECK(twice.failed == 3);

  Three absent;
  absent.additions[5].id = {"TH", 9};
  CHECK(absent.code_of_adding() == "none-record");
  CHECK(absent.failed == 5);

  Three corrects;
  corrects.additions[3].entry.corrects = corrects.additions[0].entry.key;
  CHECK(corrects.code_of_adding().empty());
  corrects.additions = {
      {{"TH", 1}, entry_of("20260502T100000Z-aaaa", Kind::note, {{"text", "x"}})}};
  corrects.additions[0].entry.corrects = "20260503T100000Z-aaaa";
  CHECK(corrects.code_of_adding() == "record-corrects");
}

TEST_CASE("where what was written can't be taken back, it is said of each record") {
  Three t;
  t.disk.cut_write(3, 10, false);
  t.disk.cuts_fail = true;
  const Diagnostics problems = t.ledger.add_all(t.additions, t.failed);
  REQUIRE(problems.size() == 3);
  CHECK(problems[1].message.ends_with(": its new entries stay"));
  CHECK(problems[2].message.ends_with(": its new entries stay"));
}
