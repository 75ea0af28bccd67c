// SPDX-License-Identifier: MIT
//
// Field cards read back from the PDF by another program: what a flyer reads is what `show` says.
#include <doctest/doctest.h>

#include "ledger_bench.h"
#include "support/done.h"
#include "support/pdf_tools.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

std::string printed_card(const LedgerBench& ledger, std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), "card");
  arguments.insert(arguments.end(), {"--out", ledger.folder.path("field")});
  const Ran ran = ledger(arguments);
  REQUIRE_MESSAGE(ran.code == 0, ran.err);
  return test::run_tool("pdftotext -layout " + ledger.folder.path("field/card.pdf") + " -").out;
}

/// The number behind these words.
std::string number_after(const std::string& text, const std::string& words) {
  const std::size_t at = text.find(words);
  REQUIRE_MESSAGE(at != std::string::npos, words);
  const std::size_t from = at + words.size();
  return text.substr(from, text.find_first_not_of("0123456789.", from) - from);
}

}  // namespace

TEST_CASE("a card that is read back has the figures of show") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "weighed", "washed", "1.490"}));
  done(ledger({"log", "--sure", "th1", "tied", "loop=365 mm"}));
  done(ledger({"log", "--sure", "th1", "break_in", "turns=700", "loop_after=377 mm"}));
  done(ledger({"log", "--sure", "th1", "wound", "1400", "41 gf.cm", "stopped", "backed_off_to=1250",
               "pairs=1350: 30 gf.cm, 1200: 22 gf.cm, 1000: 16 gf.cm", "temperature=21 C"}));
  const std::string card = printed_card(ledger, {"th1"});
  const std::string show = ledger({"show", "th1"}).out;
  CHECK(has(card, "TH-01-J"));
  CHECK(has(card, "ANNA, for Heron"));
  const std::string wind_to = number_after(show, "wind to ");
  CHECK(has(card, wind_to));
  CHECK(has(card, "do not pass " + number_after(show, "do not pass ")));
  CHECK(has(card, "torque curve: its own, 4 torques read while unwinding on 2026-05-01"));
  const std::string launch = number_after(show, "with 1250 turns left in, about ");
  CHECK(has(card, "Last launch: 1250 turns left in, about " + launch + " gf·cm"));
  CHECK(has(card, "best 1400 turns at 41 gf·cm"));
  CHECK(has(card, "377 mm"));
  CHECK(has(card, "Its best winding was at 21 °C"));
  CHECK(has(card, "eye protection"));
}

TEST_CASE("a motor that was never wound gets the estimate, and what is to be done first") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "qx1", "tied", "loop=200 mm"}));
  const std::string card = printed_card(ledger, {"qx1", "--units", "inch", "--paper", "letter"});
  CHECK(has(card, "First: break-in step 1 of 2"));
  CHECK(has(card, "not wound yet"));
  CHECK(has(card, "the default shape, an estimate"));
  CHECK(has(card, "ozf·in"));
  CHECK(has(test::run_tool("pdfinfo " + ledger.folder.path("field/card.pdf")).out, "612 x 792"));
}

TEST_CASE("the torque to expect comes from a winding far enough, else from the section") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "wound", "600", "12 gf.cm"}));
  CHECK(has(printed_card(ledger, {"th1"}), "from its section"));
  done(ledger({"log", "--sure", "th1", "wound", "1200", "33 gf.cm"}));
  CHECK(has(printed_card(ledger, {"th1"}), "from 33 gf·cm read at"));
  // Read on the way up, past "wind to": what it read there is what is expected.
  done(ledger({"log", "--sure", "th1", "wound", "1600", "48 gf.cm",
               "pairs=1000: 25 gf.cm, 1300: 36 gf.cm, 1500: 43 gf.cm"}));
  const std::string card = printed_card(ledger, {"th1"});
  CHECK(has(card, "from what it read while"));
  CHECK(has(card, "unwinding reads less"));
}

TEST_CASE("the list of the box has a line for each motor, the retired one not to be wound") {
  const LedgerBench ledger;
  done(ledger({"log", "th2", "retired", "frayed"}));
  const std::string list = printed_card(ledger, {"th1", "th2", "qx1"});
  CHECK(has(list, "In the box: 3 motors"));
  CHECK(has(list, "as planned"));
  CHECK(has(list, "retired: not to be wound"));
  CHECK(has(list, "page 2 of 2"));
}

TEST_CASE("figures as planned that were changed by hand are said on the card") {
  const LedgerBench ledger;
  std::string text = ledger.record();
  const std::size_t at = text.find("owner = \"ANNA\"");
  REQUIRE(at != std::string::npos);
  text.replace(at, 14, "owner = \"ANNE\"");
  ledger.folder.write("records/TH-01.toml", text);
  CHECK(has(printed_card(ledger, {"th1"}), "were changed by hand or damaged"));
}
