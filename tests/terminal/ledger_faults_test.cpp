// SPDX-License-Identifier: MIT
//
// The ledger when the world is unkind: a folder that may not be written, a disk that is full, a
// clock that goes back, two writers at once, records that have grown long.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include <algorithm>
#include <atomic>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <thread>

#include "ledger_bench.h"
#include "records/entry.h"
#include "records/fields.h"
#include "records/read.h"
#include "records/write.h"
#include "support/done.h"
#include "support/full_disk.h"
#include "support/nobody.h"

using namespace loopledger;
using namespace loopledger::test;

TEST_CASE("a records folder that may only be read is read, and nothing else is tried") {
  const LedgerBench ledger;
  const std::string before = ledger.record();
  ::chmod(ledger.folder.path().c_str(), 0755);
  for (const char* name : {"TH-01.toml", "TH-02.toml", "QX-01.toml", ".gitattributes"}) {
    ::chmod(ledger.folder.path(std::string("records/") + name).c_str(), 0444);
  }
  ::chmod(ledger.folder.path("records").c_str(), 0555);
  {
    const Nobody nobody;
    CHECK(ledger({"show", "th1"}).code == 0);
    CHECK(has(ledger({"list"}).out, "3 motors\n"));
    const Ran log = ledger({"log", "th1", "note", "hello"});
    CHECK(log.code == 3);
    CHECK(has(log.err, "records/TH-01.toml: error: "));
  }
  ::chmod(ledger.folder.path("records").c_str(), 0755);
  CHECK(ledger.record() == before);
}

TEST_CASE("on a full disk an entry is written whole or not at all, whatever room is left") {
  const LedgerBench ledger;
  const std::string before = ledger.record();
  for (const std::size_t room : {0U, 1U, 20U, 60U}) {
    CAPTURE(room);
    const Ran log = [&] {
      const FullDisk full(before.size() + room);
      return ledger({"log", "--sure", "th1", "wound", "1180", "44 gf.cm", "end=stopped"});
    }();
    CHECK(log.code == 3);
    CHECK(ledger.record() == before);
  }
  CHECK(ledger({"log", "--sure", "th1", "wound", "1180", "44 gf.cm", "end=stopped"}).code == 0);
  CHECK(ledger.record().size() > before.size());
}

TEST_CASE("on a full disk print opens no half record and leaves no half page") {
  const LedgerBench ledger;
  const std::string plan = ledger.folder.path("night.toml");
  const std::string out = ledger.folder.path("elsewhere");
  const Ran print = [&] {
    const FullDisk full(1000);
    return run({"print", plan, "--records", ledger.folder.path("new"), "--out", out});
  }();
  CHECK(print.code == 3);
  std::error_code none;
  for (const char* folder : {"new", "elsewhere"}) {
    for (const auto& file : std::filesystem::directory_iterator(ledger.folder.path(folder), none)) {
      CHECK_MESSAGE(file.path().filename() == ".gitattributes", file.path());
    }
  }
}

TEST_CASE("a clock that went back changes no order and no rest") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "tied", "loop=300 mm", "--at", "2027-03-01 10:00"}));
  done(ledger({"log", "--sure", "th1", "wound", "900", "--at", "2027-03-02 10:00"}));
  // The clock says 2026 now: what is logged stands behind what was, all the same.
  done(ledger({"log", "--sure", "th1", "tied", "loop=290 mm"}));
  const Ran show = ledger({"show", "th1"});
  CHECK(show.code == 0);
  CHECK(has(show.out, "290 mm as tied"));
  CHECK_FALSE(has(show.out, "rested"));
  CHECK(has(ledger({"list"}).out, "2027-03-02"));
  // A time that is claimed counts as that.
  done(ledger({"log", "--sure", "th1", "tied", "loop=310 mm", "--at", "2019-01-01 10:00"}));
  CHECK(has(ledger({"show", "th1"}).out, "290 mm as tied"));
}

TEST_CASE("two programs that log at once lose nothing and mix nothing") {
  const LedgerBench ledger;
  constexpr int kEach = 25;
  std::atomic<int> written{0};
  const auto writer = [&](const char* who) {
    for (int i = 0; i < kEach; ++i) {
      const std::string command = "'" LOOPLEDGER_PROGRAM "'" + std::string(" log TH-01-J note ") +
                                  who + " --records '" + ledger.folder.path("records") +
                                  "' >/dev/null 2>&1";
      written += std::system(command.c_str()) == 0 ? 1 : 0;  // NOLINT(concurrency-mt-unsafe)
    }
  };
  std::thread one(writer, "ANNA");
  std::thread other(writer, "BEN");
  one.join();
  other.join();
  const auto record = records::read_record(ledger.record(), "TH-01.toml");
  REQUIRE(record.ok());
  CHECK(render(record.diagnostics()).empty());
  CHECK(static_cast<int>(record->entries.size()) == written);
  CHECK(written >= kEach);
  CHECK(std::ranges::none_of(record->entries, &records::Entry::edited));
}

TEST_CASE("a record of 10,000 entries reads whole, is shown on a screen, and takes another") {
  const LedgerBench ledger;
  std::string text = ledger.record();
  constexpr int kEntries = 10'000;
  for (int i = 0; i < kEntries; ++i) {
    records::Entry entry;
    entry.key = records::make_key({1'700'000'000 + i}, "abcd");
    entry.kind = records::Kind::wound;
    entry.turns = Turns::of(800 + i % 300);
    text += *records::entry_line(entry);
  }
  ledger.folder.write("records/TH-01.toml", text);
  const Ran show = ledger({"show", "th1"});
  CHECK(show.code == 0);
  CHECK(has(show.out, "10000 windings"));
  CHECK(std::count(show.out.begin(), show.out.end(), '\n') <= 34);
  CHECK(ledger({"log", "--sure", "th1", "wound", "1101"}).code == 0);
  const Ran again = ledger({"show", "th1"});
  CHECK(has(again.out, "best 1101 turns"));
  CHECK(has(again.out, "10001 windings"));
}
