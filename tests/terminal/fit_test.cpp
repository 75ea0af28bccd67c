// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>

#include "support/cli_run.h"
#include "support/done.h"
#include "support/read_json.h"
#include "terminal/ledger_bench.h"

using namespace loopledger;
using test::check_json;
using test::done;
using test::has;
using test::LedgerBench;
using test::Ran;
using test::run;

namespace {

/// The invented ledger's motors TH are 1.4975 g on 2 g/m: section 4.3011 mm2, side 2.0739 mm.
void tie(const LedgerBench& ledger, const std::string& id, const std::string& loop = "300 mm") {
  REQUIRE(ledger({"log", "--sure", id, "tied", "loop=" + loop}).code == 0);
}

void wind(const LedgerBench& ledger, const std::string& id, const std::string& turns,
          const std::string& torque, const std::string& end) {
  REQUIRE(ledger({"log", id, "wound", turns, torque, "end=" + end, "--sure"}).code == 0);
}

}  // namespace

TEST_CASE(
    "fit gives a lot's factors from motors that went to their limit, as lines for the shelf") {
  const LedgerBench ledger;
  tie(ledger, "th1");
  tie(ledger, "th2");
  tie(ledger, "qx1");
  wind(ledger, "th1", "1400", "40 gf.cm", "broke");
  wind(ledger, "th2", "1430", "42 gf.cm", "solid");
  wind(ledger, "qx1", "1000", "25 gf.cm", "stopped");
  const Ran ran = ledger({"fit", "may"});
  CHECK(ran.code == 0);
  CHECK(ran.err.empty());
  CHECK(has(ran.out,
            "Lot May, 3 motors wound: 2 to the limit (1 broke, 1 felt solid), 1 only stopped\n"));
  CHECK(has(ran.out,
            "estimates; known before, from the defaults: k_N 11 ± 14 %, k_Q 0.6 MPa ± 25 %"));
  // 9.678 and 9.886, and one of at least 6.913: computed apart in plain Python, 10.058 ± 0.990.
  CHECK(has(ran.out, "\n  turns_factor = \"10.06 ± 0.99\"\n"));
  CHECK(has(ran.out, "\n  torque_factor = \"0.4"));
  CHECK(has(ran.out, "2 % of motors break there (estimate)"));
  CHECK(has(ran.out, "three or more tell more"));
  CHECK(has(ran.out, "eye protection"));
}

TEST_CASE("the lines of fit, pasted under the strip, are this lot's own to check") {
  const LedgerBench ledger;
  for (const char* id : {"th1", "th2", "qx1"}) {
    tie(ledger, id);
    wind(ledger, id, id == std::string("qx1") ? "1290" : "1400", "40 gf.cm", "broke");
  }
  const std::string out = done(ledger({"fit", "May"})).out;
  CHECK_FALSE(has(out, "three or more tell more"));
  const std::size_t at = out.find("  turns_factor");
  const std::string lines = out.substr(at, out.find("\n\n", at) + 1 - at);
  std::string plan = ledger.folder.read("night.toml");
  plan.insert(plan.find("lot = \"May\"\n") + 12, lines);
  const Ran check = run({"check", ledger.folder.write("own.toml", plan)});
  CHECK(check.code == 0);
  CHECK(has(check.out, "(this lot's own)"));
  CHECK(has(check.out, "(from the shelf)"));
  // As what is known before they count twice, and fit says so.
  const Ran again = ledger({"fit", "May", "--plan", ledger.folder.path("own.toml")});
  CHECK(again.code == 0);
  CHECK(has(again.err, "its motors count twice"));
  CHECK(has(again.out, "known before, from strip tan"));
}

TEST_CASE("motors that were only stopped give no line, and say what would help") {
  const LedgerBench ledger;
  tie(ledger, "th1");
  wind(ledger, "th1", "900", "20 gf.cm", "stopped");
  REQUIRE(ledger({"log", "--sure", "th1", "wound", "950"}).code == 0);
  const Ran ran = ledger({"fit", "May"});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, "1 motor wound: 0 to the limit (0 broke, 0 felt solid), 1 only stopped"));
  CHECK(has(ran.out, "Nothing for the shelf yet"));
  CHECK_FALSE(has(ran.out, "turns_factor ="));
}

TEST_CASE("what is left out is named with its date and the reason") {
  const LedgerBench ledger;
  tie(ledger, "th1");
  tie(ledger, "th2");
  tie(ledger, "qx1");
  wind(ledger, "th1", "14000", "40 gf.cm", "broke");
  wind(ledger, "th2", "1400", "40 gf.cm", "broke");
  REQUIRE(ledger({"log", "--sure", "th2", "broke", "where=knot"}).code == 0);
  REQUIRE(ledger({"log", "--sure", "qx1", "broke", "where=middle"}).code == 0);
  const Ran ran = ledger({"fit", "May"});
  CHECK(has(ran.out, "TH-01-J on 2026-05-01: k_N would be 96.8 where 11 is usual: a slip?\n"));
  CHECK(has(ran.out, "TH-02-H on 2026-05-01: broke at the knot: counted as \"at least that\"\n"));
  CHECK(has(ran.out, ": it broke, and at how many turns is not said\n"));
  CHECK(has(ran.out, "1 motor wound: 0 to the limit"));
}

TEST_CASE("a line changed by hand is left out of a fit until it is accepted") {
  const LedgerBench ledger;
  tie(ledger, "th1");
  wind(ledger, "th1", "1400", "40 gf.cm", "broke");
  std::string record = ledger.record();
  record.replace(record.find("turns = 1400"), 12, "turns = 1500");
  (void)ledger.folder.write("records/TH-01.toml", record);
  const Ran edited = ledger({"fit", "May"});
  CHECK(has(edited.out, "changed by hand: `loopledger mend --accept` takes it over"));
  CHECK(has(edited.out, "0 motors wound"));
  REQUIRE(run({"mend", "--accept", ledger.folder.path("records/TH-01.toml")}).code == 0);
  CHECK(has(ledger({"fit", "May"}).out, "1 motor wound: 1 to the limit (1 broke"));
}

TEST_CASE("a motor tied again after it broke gives a second datum, with the loop it then has") {
  const LedgerBench ledger;
  tie(ledger, "th1");
  wind(ledger, "th1", "1400", "40 gf.cm", "broke");
  tie(ledger, "th1", "250 mm");
  wind(ledger, "th1", "1166", "40 gf.cm", "broke");
  const Ran json = ledger({"fit", "May", "--json"});
  check_json(json.out, {{"motors", "1"}, {"broke", "2"}, {"turns_factor.at_limit", "2"}});
  // 1400 / 300 and 1166 / 250 are the same factor: from motor to motor hardly anything.
  const Ran text = ledger({"fit", "May"});
  CHECK(has(text.out, "1 motor wound: 2 to the limit (2 broke, 0 felt solid), 0 only stopped"));
}

TEST_CASE("a broken-in length logged before the winding is the length that counts") {
  const LedgerBench ledger;
  tie(ledger, "th1");
  REQUIRE(ledger({"log", "--sure", "th1", "break_in", "loop_after=309 mm", "turns=700"}).code == 0);
  wind(ledger, "th1", "1442", "40 gf.cm", "broke");
  const std::string longer = ledger({"fit", "May", "--json"}).out;
  const LedgerBench other;
  tie(other, "th1");
  wind(other, "th1", "1400", "40 gf.cm", "broke");
  const std::string shorter = other({"fit", "May", "--json"}).out;
  const auto middle = [](const std::string& json) {
    const std::size_t at = json.find("\"middle\": ");
    return json.substr(at, 20);
  };
  CHECK(middle(longer) == middle(shorter));  // 1442 / 309 = 1400 / 300
}

TEST_CASE("a lot that nobody has is nothing found, with the nearest name or those there are") {
  const LedgerBench ledger;
  const Ran ran = ledger({"fit", "Mya"});
  CHECK(ran.code == 4);
  CHECK(has(ran.err, "no motor in the ledger is of the lot \"Mya\" [none-lot]"));
  CHECK(has(ran.err, "did you mean \"May\"?"));
  CHECK(has(ledger({"fit", "october"}).err, "its lots are May"));
  const Ran json = ledger({"fit", "october", "--json"});
  CHECK(json.code == 4);
  CHECK(has(json.out, "\"none-lot\""));
}

TEST_CASE("fit says what its lines do to \"wind to\" only where they hold turns") {
  const LedgerBench ledger;
  tie(ledger, "th1");
  REQUIRE(ledger({"log", "--sure", "th1", "broke", "torque=50 gf.cm"}).code == 0);
  const std::string out = done(ledger({"fit", "may"})).out;
  CHECK(has(out, "torque_factor = "));
  CHECK_FALSE(has(out, "turns_factor = \""));
  CHECK_FALSE(has(out, "of motors break there"));
  CHECK(has(out, "Without a turns_factor \"wind to\" stays as it was: log the turns too.\n"));
}
