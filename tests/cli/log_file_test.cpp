// SPDX-License-Identifier: MIT
#include "cli/log_file.h"

#include <doctest/doctest.h>

#include "ledger_bench.h"

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
  CHECK(has(ran.out, "weighed washed: 1.497 g: dry, \"twice\" read\n"));
  CHECK(has(ran.out, "2 entries stored\n"));
  CHECK(has(ledger.record(), "\"20260501T190000Z-"));
  const Ran again = ledger({"log", "--from", file});
  CHECK(again.out == "0 entries stored; 2 there already\n");
}

TEST_CASE("a TOML file of entries reads the same") {
  const LedgerBench ledger;
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

TEST_CASE("files that are no entries are refused in words") {
  CHECK(cli::entries_from_file("", "a.csv").diagnostics().front().code == "log-csv");
  CHECK(cli::entries_from_file("id,kind\n\"th1", "a.csv").diagnostics().front().message ==
        "a quote is opened and never closed");
  CHECK(cli::entries_from_file("id,kind\na,b,c\n", "a.csv").diagnostics().front().message ==
        "expected at most 2 fields, found 3");
  CHECK(cli::entries_from_file("motors = 3\n", "a.toml").diagnostics().front().code == "log-file");
}

TEST_CASE("every fault of a file of entries says what to do") {
  for (const char* text : {"", "id,kind\n\"th1", "id,kind,at\nth1,note,tuesday\n",
                           "id,kind,turns,turns\nth1,wound,900,901\n"}) {
    for (const Diagnostic& d : cli::entries_from_file(text, "a.csv").diagnostics()) {
      CHECK_MESSAGE(!d.hint.empty(), d.message);
      CHECK(d.place.line > 0);
    }
  }
}

TEST_CASE("log without an id, a kind or a file is a usage error") {
  const LedgerBench ledger;
  CHECK(ledger({"log"}).code == 2);
  CHECK(ledger({"log", "th1"}).code == 2);
}

TEST_CASE("of the same time, only an entry that says the same is there already") {
  const LedgerBench ledger;
  const auto take = [&](const std::string& fields) {
    return ledger({"log", "--from",
                   ledger.folder.write("e.toml",
                                       "[[entries]]\nid = \"th1\"\nkind = \"wound\"\nat = "
                                       "\"2026-05-01 19:00\"\nturns = 1000\n" +
                                           fields)})
        .out;
  };
  CHECK(has(take("pairs = \"900: 30 gf.cm, 700: 20 gf.cm\"\n"), "1 entry stored\n"));
  const std::string key = ledger.last_line().substr(1, 21);
  CHECK(has(take("pairs = \"900: 31 gf.cm, 700: 20 gf.cm\"\n"), "1 entry stored\n"));
  CHECK(has(take("corrects = \"" + key + "\"\n"), "1 entry stored\n"));
  CHECK(has(ledger.last_line(), "corrects = \"" + key + "\""));
  CHECK(take("pairs = \"900: 31.0 gf.cm, 700: 20 gf.cm\"\n") ==
        "0 entries stored; 1 there already\n");
  CHECK(take("corrects = \"" + key.substr(17) + "\"\n") == "0 entries stored; 1 there already\n");
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
