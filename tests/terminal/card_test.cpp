// SPDX-License-Identifier: MIT
//
// `card`: whose cards are written, what is told of it, and what is refused. What stands in the PDF
// is read back in card_read_back_test.cpp.
#include <doctest/doctest.h>

#include "ledger_bench.h"
#include "support/done.h"
#include "support/read_json.h"

using namespace loopledger;
using namespace loopledger::test;

TEST_CASE("card writes card.pdf and says how many cards it holds") {
  const LedgerBench ledger;
  const std::string out = ledger.folder.path("field");
  const Ran one = ledger({"card", "th1", "--out", out});
  CHECK(one.code == 0);
  CHECK(one.err == "");
  CHECK(ledger.told(one.out) == "Wrote DIR/field/card.pdf (1 card)\n");
  CHECK(ledger.folder.read("field/card.pdf").starts_with("%PDF"));
  // An id typed twice is one motor.
  const Ran three = ledger({"card", "th1", "TH-01-J", "th2", "qx1", "--out", out});
  CHECK(ledger.told(three.out) == "Wrote DIR/field/card.pdf (3 cards, list of 3 motors)\n");
}

TEST_CASE("card leaves the records alone, and the same records give the same bytes") {
  const LedgerBench ledger;
  const std::string out = ledger.folder.path("field");
  done(ledger({"log", "--sure", "th1", "wound", "1200", "41 gf.cm", "stopped"}));
  const std::string before = ledger.record();
  done(ledger({"card", "th1", "th2", "--out", out}));
  const std::string first = ledger.folder.read("field/card.pdf");
  done(ledger({"card", "th1", "th2", "--out", out}));
  CHECK(ledger.folder.read("field/card.pdf") == first);
  CHECK(ledger.record() == before);
}

TEST_CASE("card for an id that is not held writes nothing; no words at all are a usage error") {
  const LedgerBench ledger;
  const std::string out = ledger.folder.path("field");
  const Ran unknown = ledger({"card", "th1", "zz9", "--out", out});
  CHECK(unknown.code == 4);
  CHECK(has(unknown.err, "[none-record]"));
  CHECK_FALSE(ledger.folder.holds("field/card.pdf"));
  CHECK(ledger({"card", "th1", "--out", out, "--paper", "a5"}).code != 0);
  CHECK_FALSE(ledger.folder.holds("field/card.pdf"));
  const Ran none = ledger({"card", "--out", out});
  CHECK(none.code == 2);
  CHECK(has(none.err, "hint: loopledger card th1 th2"));
  CHECK(ledger({"card", "th1", "--owner", "ANNA"}).code == 2);
  CHECK(has(ledger({"crad", "th1"}).err, "card"));
}

TEST_CASE("card: a filter takes those that can be wound; retired ones named are warned of") {
  const LedgerBench ledger;
  const std::string out = ledger.folder.path("field");
  CHECK(has(ledger({"card", "--owner", "anna", "--out", out}).out, "(2 cards, list of 2 motors)"));
  done(ledger({"log", "--sure", "th1", "broke", "1300", "knot"}));
  CHECK(has(ledger({"card", "--owner", "anna", "--out", out}).out, "(1 card)"));
  const Ran named = ledger({"card", "th1", "th2", "--out", out});
  CHECK(named.code == 0);
  CHECK(has(named.out, "(1 card, list of 2 motors)"));
  CHECK(has(named.err, "warning: TH-01-J is retired: it gets no card [card-retired]"));
  CHECK(ledger({"card", "th1", "--out", out}).code == 4);
  const Ran nobody = ledger({"card", "--owner", "nobody", "--out", out});
  CHECK(nobody.code == 4);
  CHECK(has(nobody.err, "no motor to wind is held for --owner nobody [none-card]"));
  done(ledger({"log", "--sure", "th1", "tied", "loop=360 mm"}));
  CHECK(has(ledger({"card", "th1", "--out", out}).out, "(1 card)"));
}

TEST_CASE("card --json: the figures of each card, units in the keys") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "weighed", "washed", "1.490"}));
  done(ledger({"log", "--sure", "th1", "wound", "1400", "41 gf.cm", "backed_off_to=1250"}));
  const Ran ran = ledger({"card", "th1", "--json", "--out", ledger.folder.path("field")});
  CHECK(ran.code == 0);
  check_json(ran.out, {{"format", "1"},
                       {"file", "\"" + ledger.folder.path("field/card.pdf") + "\""},
                       {"motors[*].id", "[\"TH-01\"]"},
                       {"motors[0].check_char", "\"J\""},
                       {"motors[0].state", "\"broken in\""},
                       {"motors[0].card", "true"},
                       {"motors[0].wind_to_turns", "number"},
                       {"motors[0].do_not_pass_turns", "number"},
                       {"motors[0].expected_torque_mNm", "number"},
                       {"motors[0].expected_torque_low_mNm", "number"},
                       {"motors[0].last_launch.turns_left", "1250"},
                       {"motors[0].last_launch.let_out_turns", "number"},
                       {"motors[0].oil_adds_mg", "null"},
                       {"diagnostics", "[]"}});
  const Ran failed = ledger({"card", "zz9", "--json"});
  CHECK(failed.code == 4);
  check_json(failed.out, {{"file", "null"}, {"diagnostics[*].code", "[\"none-record\"]"}});
}
