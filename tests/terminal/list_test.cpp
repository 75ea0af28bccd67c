// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>

#include "ledger_bench.h"
#include "support/club_plan.h"
#include "support/done.h"
#include "support/read_json.h"

using namespace loopledger;
using namespace loopledger::test;

TEST_CASE("list shows every motor on a line") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "wound", "1200", "41 gf.cm"}));
  const Ran ran = ledger({"list"});
  CHECK(ran.code == 0);
  CHECK(ran.err.empty());
  CHECK(has(ran.out, "TH-01-J  ANNA   Heron  club  May  broken in "));
  CHECK(has(ran.out, "1200  41 gf·cm  2026-05-01\n"));
  CHECK(has(ran.out, "QX-01-"));
  CHECK(ran.out.ends_with("3 motors\n"));
}

TEST_CASE("list filters by owner, rule, lot and state") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "tied", "300 mm"}));
  CHECK(has(ledger({"list", "--owner", "ben"}).out, "1 motor\n"));
  CHECK(has(ledger({"list", "--class", "club"}).out, "2 motors\n"));
  CHECK(has(ledger({"list", "--lot", "may"}).out, "3 motors\n"));
  CHECK(has(ledger({"list", "--state", "tied"}).out, "1 motor\n"));
  CHECK(has(ledger({"list", "--state", "flown"}).out, "No such motors in "));
  CHECK(ledger({"list", "--state", "lost"}).code == 2);
  CHECK(ledger({"list", "--sort", "colour"}).code == 2);
}

TEST_CASE("list sorts by most turns") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th2", "wound", "1300"}));
  done(ledger({"log", "--sure", "th1", "wound", "1200"}));
  const std::string out = ledger({"list", "--sort", "turns"}).out;
  CHECK(out.find("TH-02") < out.find("TH-01"));
  CHECK(out.find("TH-01") < out.find("QX-01"));
}

TEST_CASE("list names damaged and foreign files and passes over them") {
  const LedgerBench ledger;
  ledger.folder.write("records/TH-02.toml", "hello, world\n");
  ledger.folder.write("records/notes.txt", "mine\n");
  const Ran ran = ledger({"list"});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, "2 motors\n"));
  CHECK(has(ledger.told(ran.err),
            "DIR/records/notes.txt: note: no record by its name; passed over "
            "[record-foreign]\n"));
  CHECK(has(ledger.told(ran.err), "DIR/records/TH-02.toml:1:"));
  CHECK(ledger.folder.read("records/TH-02.toml") == "hello, world\n");
}

TEST_CASE("list --json has one object a motor") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "wound", "1200", "41 gf.cm"}));
  const Ran ran = ledger({"list", "--json", "--owner", "anna"});
  CHECK(ran.code == 0);
  check_json(ran.out, {{"format", "1"},
                       {"motors[*].id", "[\"TH-01\", \"TH-02\"]"},
                       {"motors[*].state", "[\"broken_in\", \"planned\"]"},
                       {"motors[*].best_turns", "[1200, null]"},
                       {"motors[*].for", "[\"Heron\", \"Heron\"]"},
                       {"motors[*].washed_g", "[null, null]"}});
}

TEST_CASE("a folder without records, mistyped perhaps, is nothing found") {
  const TempFolder folder;
  const Ran ran = run({"list", "--records", folder.path("none")});
  CHECK(ran.code == 4);
  CHECK(has(ran.err, "error: no records are in " + folder.path("none") + " [none-record]"));
  CHECK(has(ran.err, "hint: --records names the folder"));
  CHECK(ran.out.empty());
}

TEST_CASE("an owner is found without case and marks, and what is not there is told") {
  const LedgerBench ledger;
  const std::string plan = ledger.folder.read("night.toml");
  std::string marked = plan;
  marked.replace(marked.find("\"QX\""), 4, "\"QY\"");
  marked.replace(marked.find("\"TH\""), 4, "\"TJ\"");
  marked.replace(marked.find("\"BEN\""), 5, "\"Žaněta Łoś\"");
  REQUIRE(run({"print", ledger.folder.write("marked.toml", marked)}).code == 0);
  CHECK(has(ledger({"list", "--owner", "zaneta Łos"}).out, "QY-01"));
  CHECK(has(ledger({"list", "--owner", "Zaneta Łoś", "--csv"}).out, "QY-01"));
  const Ran begun = ledger({"list", "--owner", "an"});
  CHECK(begun.code == 0);
  CHECK(has(begun.out, "No such motors"));
  CHECK(has(begun.err, "warning: no motor has the owner \"an\" [list-none]"));
  CHECK(has(begun.err, "did you mean \"ANNA\"?"));
  CHECK(has(ledger({"list", "--owner", "Zoë"}).err, "there are \"ANNA\", \"BEN\", \"Žaněta Łoś\""));
  CHECK(has(ledger({"list", "--lot", "June"}).err, "there is \"May\""));
  // Each of the two is there, though not together.
  CHECK(done(ledger({"list", "--owner", "BEN", "--class", "club"})).err.empty());
}

TEST_CASE("list sorts by every column, and the other way round") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "wound", "1300", "30 gf.cm"}));
  done(ledger({"log", "--sure", "th2", "wound", "1200", "41 gf.cm"}));
  const auto order = [&](const std::string& by, bool reverse) {
    std::vector<std::string> words{"list", "--csv", "--sort", by};
    if (reverse) {
      words.emplace_back("--reverse");
    }
    const Ran ran = ledger(words);
    CHECK(ran.code == 0);
    std::string ids;
    for (std::size_t at = ran.out.find('\n'); at + 1 < ran.out.size();
         at = ran.out.find('\n', at + 1)) {
      ids += ran.out.substr(at + 1, ran.out.find(',', at) - at - 1) + " ";
    }
    return ids;
  };
  CHECK(order("id", false) == "QX-01 TH-01 TH-02 ");
  CHECK(order("id", true) == "TH-02 TH-01 QX-01 ");
  CHECK(order("turns", false) == "TH-01 TH-02 QX-01 ");
  CHECK(order("turns", true) == "TH-02 TH-01 QX-01 ");
  CHECK(order("torque", false) == "TH-02 TH-01 QX-01 ");
  CHECK(order("state", false) == "QX-01 TH-01 TH-02 ");
  CHECK(order("owner", false) == "TH-01 TH-02 QX-01 ");
  CHECK(order("owner", true) == "QX-01 TH-01 TH-02 ");
  CHECK(order("for", true) == "TH-01 TH-02 QX-01 ");
  CHECK(order("rule", false) == "QX-01 TH-01 TH-02 ");
  CHECK(order("rule", true) == "TH-01 TH-02 QX-01 ");
  CHECK(order("loop", false) == "QX-01 TH-01 TH-02 ");
  CHECK(order("loop", true) == "TH-01 TH-02 QX-01 ");
  done(ledger({"log", "--sure", "th1", "weighed", "washed", "1.498"}));
  done(ledger({"log", "--sure", "qx1", "weighed", "washed", "0.830"}));
  CHECK(order("washed", false) == "QX-01 TH-01 TH-02 ");  // what is not known comes last
  CHECK(order("washed", true) == "TH-01 QX-01 TH-02 ");
  done(ledger({"log", "--sure", "qx1", "note", "hello", "--at", "2026-08-01"}));
  done(ledger({"log", "--sure", "th2", "note", "hello", "--at", "2026-07-01"}));
  CHECK(order("date", false) == "QX-01 TH-02 TH-01 ");
  CHECK(order("lot", false) == order("id", false));  // all alike: in the order of their ids
}

TEST_CASE("list --csv has the fields of --json, one motor a line, quoted where needed") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "wound", "1200", "41 gf.cm"}));
  const Ran ran = ledger({"list", "--csv"});
  CHECK(ran.code == 0);
  CHECK(
      ran.out.starts_with("id,check_char,state,owner,for,rule,strip,lot,washed_g,loop_mm,"
                          "wind_to_turns,best_turns,best_torque_mNm,last_date,torn,"
                          "planned_edited,label_stale,loop_is,mark\n"));
  CHECK(has(ran.out, "\nTH-01,J,broken_in,ANNA,Heron,club,"));
  CHECK(has(ran.out, ",1200,4.02"));
  CHECK(std::count(ran.out.begin(), ran.out.end(), '\n') == 4);
  CHECK(ledger({"list", "--csv", "--json"}).code == 2);
}

TEST_CASE("a strip without a lot is the lot of its name, to every filter and to fit") {
  const TempFolder folder;
  std::string plan = club_plan(2);
  REQUIRE(run({"print", folder.write("night.toml", plan)}).code == 0);
  const std::string records = folder.path("records");
  for (const std::string lot : {"tan", " Tan "}) {
    CHECK(has(run({"list", "--lot", lot, "--records", records}).out, "2 motors\n"));
    CHECK(run({"card", "--lot", lot, "--records", records, "--out", folder.path()}).code == 0);
    CHECK(run({"fit", lot, "--records", records}).code == 0);
  }
  CHECK(has(run({"list", "--lot", "t", "--records", records}).out, "No such motors"));
}
