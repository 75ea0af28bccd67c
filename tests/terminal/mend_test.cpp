// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "ledger_bench.h"
#include "support/done.h"

using namespace loopledger;
using namespace loopledger::test;

TEST_CASE("mend moves a torn end into a file beside the record, then log works again") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "wound", "1200"}));
  const std::string whole = ledger.record();
  const std::string path = ledger.folder.write("records/TH-01.toml", whole + "\"2026");
  CHECK(ledger({"log", "th1", "note", "x"}).code == 1);
  const Ran ran = run({"mend", path});
  CHECK(ran.code == 0);
  CHECK(ran.err.empty());
  CHECK(has(ledger.told(ran.out), "DIR/records/TH-01.toml: moved the torn line "));
  CHECK(has(ledger.told(ran.out),
            "what was moved is in DIR/records/TH-01.toml.damaged-20260501T100000Z\n"));
  CHECK(ledger.record() == whole);
  CHECK(ledger.folder.read("records/TH-01.toml.damaged-20260501T100000Z") == "\"2026");
  CHECK(ledger({"log", "th1", "note", "x"}).code == 0);
}

TEST_CASE("mend --accept says exactly what it accepted; without it an edited line stays edited") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "wound", "1200"}));
  std::string text = ledger.record();
  text.replace(text.find("turns = 1200"), 12, "turns = 1250");
  ledger.folder.write("records/TH-01.toml", text);
  const Ran plain = ledger({"mend", "th1"});
  CHECK(plain.code == 1);
  CHECK(has(plain.err, "[record-edited]"));
  CHECK(ledger.record() == text);
  const Ran accepted = ledger({"mend", "th1", "--accept"});
  CHECK(accepted.code == 0);
  CHECK(has(accepted.out, "accepted line "));
  CHECK(has(accepted.out, "turns = 1250"));
  CHECK(has(ledger({"mend", "th1"}).out, "nothing to mend\n"));
  CHECK_FALSE(has(done(ledger({"show", "th1"})).out, "edited"));
}

TEST_CASE("a record torn before its entries is moved away whole, and print opens it anew") {
  const LedgerBench ledger;
  ledger.folder.write("records/TH-01.toml", ledger.record().substr(0, 300));
  CHECK(ledger({"show", "th1"}).code == 1);
  const Ran ran = ledger({"mend", "th1"});
  CHECK(ran.code == 0);
  CHECK_FALSE(ledger.folder.holds("records/TH-01.toml"));
  CHECK(run({"print", ledger.folder.path("night.toml")}).code == 0);
  CHECK(ledger({"show", "th1"}).code == 0);
}

TEST_CASE("mend of a file that is not there is exit code 3, of a foreign one 1") {
  const LedgerBench ledger;
  CHECK(run({"mend", ledger.folder.path("none.toml")}).code == 3);
  const std::string foreign = ledger.folder.write("x.toml", "a = 1\n");
  CHECK(run({"mend", foreign, "--accept"}).code == 1);
  CHECK(ledger.folder.read("x.toml") == "a = 1\n");
}

TEST_CASE("mend of an id speaks of the id, as show does") {
  const LedgerBench ledger;
  for (const std::string id : {"th1z", "zz9", "??"}) {
    const Ran mended = ledger({"mend", id});
    const Ran shown = ledger({"show", id});
    CHECK(mended.code == shown.code);
    CHECK(mended.err == shown.err);
  }
  CHECK(ledger({"mend", "th1z"}).code == 1);
  CHECK(ledger({"mend", "zz9"}).code == 4);
}
