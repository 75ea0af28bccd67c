// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>
#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include "ledger_bench.h"
#include "support/done.h"
#include "support/full_disk.h"

using namespace loopledger;
using namespace loopledger::test;

TEST_CASE("an evening's CSV is stored whole, quoted values and empty cells among it") {
  const LedgerBench ledger;
  const std::string file = ledger.folder.write(
      "evening.csv",
      "id,kind,at,stage,reading,loop,note\r\n"
      "th1,weighed,2026-05-01 19:00,washed,1.497 g,,\"dry, \"\"twice\"\" read\"\r\n"
      "TH-02-H,tied,2026-05-01 19:10,,,366 mm,\r\n");
  const Ran ran = ledger({"log", "--from", file});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, "weighed washed: 1.497 g: dry, \"twice\" read\n  within its window"));
  CHECK(has(ran.out, "2 entries stored\n"));
  CHECK(has(ledger.record(), "\"20260501T190000Z-"));
  const Ran again = ledger({"log", "--from", file});
  CHECK(again.out == "0 entries stored; 2 there already\n");
}

TEST_CASE("a TOML file of entries reads the same") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  const Ran ran =
      ledger({"log", "--from",
              ledger.folder.write("evening.toml",
                                  "[[entries]]\nid = \"th1\"\nkind = \"wound\"\nturns = "
                                  "1200\ntorque = \"41 gf.cm\"\nend = \"stopped\"\n")});
  CHECK(ran.code == 0);
  CHECK(has(ledger.last_line(), "turns = 1200, torque = \"41 gf.cm\", end = \"stopped\""));
}

TEST_CASE("one wrong line and nothing at all is stored; every fault has its line") {
  const LedgerBench ledger;
  const std::string before = ledger.record();
  const std::string file = ledger.folder.write("evening.csv",
                                               "id;kind;reading;stage\n"
                                               "th1;weighed;1.497 g;washed\n"
                                               "th1;weighed;1.497 mm;washed\n"
                                               "zz9;weighed;1.4 g;washed\n"
                                               ";weighed;1.4 g;washed\n"
                                               "th2;wieghed;1.4 g;washed\n");
  const Ran ran = ledger({"log", "--from", file});
  CHECK(ran.code == 1);
  CHECK(has(ran.err, "evening.csv:3:1: error: "));
  CHECK(has(ran.err, "evening.csv:5:1: error: expected `id` in the entry, found none"));
  CHECK(has(ran.err, "evening.csv:6:1: error: expected a kind of entry, found \"wieghed\""));
  CHECK(ledger.record() == before);
  const Ran unknown = ledger({"log", "--from",
                              ledger.folder.write("one.csv",
                                                  "id,kind,reading,stage\n"
                                                  "th1,weighed,1.497 g,washed\n"
                                                  "zz9,weighed,1.4 g,washed\n")});
  CHECK(unknown.code == 4);
  CHECK(ledger.record() == before);
}

TEST_CASE("log without an id, a kind or a file is a usage error") {
  const LedgerBench ledger;
  CHECK(ledger({"log"}).code == 2);
  CHECK(ledger({"log", "th1"}).code == 2);
}

TEST_CASE("of the same time, only an entry that says the same is there already") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  const auto take = [&](const std::string& fields, const char* at) {
    return ledger({"log", "--from",
                   ledger.folder.write("e.toml", "[[entries]]\nid = \"th1\"\nkind = \"wound\"\n" +
                                                     std::string(at) + "turns = 1000\n" + fields)})
        .out;
  };
  const char* const evening = "at = \"2026-05-01 19:00\"\n";
  CHECK(has(take("pairs = \"900: 30 gf.cm, 700: 20 gf.cm\"\n", evening), "1 entry stored\n"));
  const std::string key = ledger.last_line().substr(1, 21);
  CHECK(has(take("pairs = \"900: 31 gf.cm, 700: 20 gf.cm\"\n", evening), "1 entry stored\n"));
  CHECK(has(take("corrects = \"" + key + "\"\n", ""), "1 entry stored\n"));
  CHECK(has(ledger.last_line(), "corrects = \"" + key + "\""));
  CHECK(take("pairs = \"900: 31.0 gf.cm, 700: 20 gf.cm\"\n", evening) ==
        "0 entries stored; 1 there already\n");
  CHECK(take("corrects = \"" + key.substr(17) + "\"\n", "") ==
        "0 entries stored; 1 there already\n");
}

TEST_CASE("a file without times, taken in again the same day, adds nothing twice and says so") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm", "--at", "2026-04-01 10:00"}));
  const std::string file =
      ledger.folder.write("e.csv", "id,kind,turns\nth1,wound,900\nth1,wound,900\n");
  CHECK(has(ledger({"log", "--from", file}).out, "2 entries stored\n"));
  const std::string once = ledger.record();
  const Ran again = ledger({"log", "--from", file});
  CHECK(again.code == 0);
  CHECK(again.out == "0 entries stored; 2 there already\n");
  CHECK(
      has(again.err, "e.csv:3:1: note: TH-01: wound to 900 turns is there already, of 2026-05-01"));
  CHECK(has(again.err, "one more of the same gets its time in a column `at`"));
  CHECK(ledger.record() == once);
  CHECK(has(ledger({"log", "--from", file, "--json"}).out, "\"stored\": 0,\n  \"there\": 2"));
}

TEST_CASE("of many rows that are there already ten are told one by one") {
  const LedgerBench ledger;
  std::string rows = "id,kind,text\n";
  for (int i = 0; i < 13; ++i) {
    rows += "th1,note,hello " + std::to_string(i) + "\n";
  }
  const std::string file = ledger.folder.write("e.csv", rows);
  REQUIRE(ledger({"log", "--from", file}).code == 0);
  const Ran again = done(ledger({"log", "--from", file}));
  CHECK(again.out == "0 entries stored; 13 there already\n");
  CHECK(has(again.err, "hello 9 is there already"));
  CHECK_FALSE(has(again.err, "hello 10"));
  CHECK(has(again.err, "note: 3 more rows are there already"));
}

TEST_CASE("with one record locked, torn or full, nothing of a file is stored in any other") {
  const LedgerBench ledger;
  const auto second = [&] { return ledger.folder.read("records/TH-02.toml"); };
  const std::string file =
      ledger.folder.write("e.csv", "id,kind,text\nth1,note,one\nth2,note,two\nqx1,note,three\n");
  const std::string first = ledger.record();
  const std::string other = second();
  {
    const int held = ::open(ledger.folder.path("records/TH-02.toml").c_str(), O_RDWR);
    REQUIRE(::flock(held, LOCK_EX) == 0);
    const Ran ran = ledger({"log", "--from", file});
    CHECK(ran.code == 3);
    CHECK(has(ran.err, "another program is writing to this record [disk-lock]"));
    CHECK(has(ran.err, "e.csv:3:1: note: nothing of the file was stored"));
    ::close(held);
  }
  CHECK(ledger.record() == first);
  CHECK(second() == other);
  ledger.folder.write("records/TH-02.toml", other + "\"20260101T100000Z-ab");
  CHECK(ledger({"log", "--from", file}).code == 1);
  CHECK(ledger.record() == first);
  // The second of the files that are written to is the longer one, so that the first gets its line.
  ledger.folder.write("records/TH-02.toml", other + "# " + std::string(4000, 'x') + "\n");
  {
    const FullDisk full(second().size() + 10);
    const Ran ran = ledger({"log", "--from", file});
    CHECK(ran.code == 3);
    CHECK(has(ran.err, "nothing of the file was stored"));
  }
  CHECK(ledger.record() == first);
  CHECK(ledger({"log", "--from", file}).out.ends_with("3 entries stored\n"));
}

TEST_CASE("an id beside --from is refused, for the file names its motors") {
  const LedgerBench ledger;
  const std::string before = ledger.record();
  const Ran ran =
      ledger({"log", "th2", "--from",
              ledger.folder.write("e.csv", "id,kind,reading,stage\nth1,weighed,1.497 g,washed\n")});
  CHECK(ran.code == 2);
  CHECK(has(ran.err, "expected ID and KIND, or --from FILE, found both [usage-both]"));
  CHECK(ledger.record() == before);
}
