// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "ledger_bench.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

/// A motor on its way through break-in.
void break_in(const LedgerBench& ledger, const std::string& id) {
  (void)ledger({"log", id, "weighed", "washed", "1.497"});
  (void)ledger({"log", id, "tied", "loop=365 mm"});
  (void)ledger({"log", id, "break_in", "turns=700", "loop_after=377 mm"});
}

}  // namespace

TEST_CASE(
    "a label is out of date once break-in changed what it says, and fresh when printed anew") {
  const LedgerBench ledger;
  const std::string out = ledger.folder.path("out");
  CHECK(has(ledger({"list", "--stale"}).out, "No such motors"));
  (void)ledger({"log", "th1", "weighed", "washed", "1.497"});
  CHECK(has(ledger({"list", "--stale"}).out, "No such motors"));  // the slip is filled in by pen
  break_in(ledger, "th1");
  CHECK(has(ledger({"list", "--stale"}).out, "TH-01-J"));
  const Ran printed = ledger({"label", "--stale", "--out", out});
  CHECK(printed.code == 0);
  CHECK(has(printed.out, "(1 label)"));
  CHECK(has(ledger.last_line(), "kind = \"labelled\", tag = \"TH-01-J MADE "));
  CHECK(has(ledger.last_line(), " 1.497G 377MM L1 "));
  CHECK(ledger({"label", "--stale", "--out", out}).out == "No label is out of date.\n");
  // A flight changes nothing that stands on the label; more turns than ever do.
  (void)ledger({"log", "th1", "flown", "7:31"});
  CHECK(has(ledger({"list", "--stale"}).out, "No such motors"));
  (void)ledger({"log", "th1", "wound", "1400", "41 gf.cm", "stopped"});
  CHECK(has(ledger({"list", "--stale"}).out, "TH-01-J"));
  (void)ledger({"label", "th1", "--out", out});
  CHECK(has(ledger.last_line(), "MADE 1400T 41GFCM"));
}

TEST_CASE("a retired motor's label is not out of date") {
  const LedgerBench ledger;
  break_in(ledger, "th1");
  (void)ledger({"log", "th1", "retired", "frayed"});
  CHECK(has(ledger({"list", "--stale"}).out, "No such motors"));
}

TEST_CASE("an id that is not held prints nothing, and no words at all are a usage error") {
  const LedgerBench ledger;
  const std::string out = ledger.folder.path("labels");
  CHECK(ledger({"label", "th1", "zz9", "--out", out}).code == 4);
  CHECK_FALSE(ledger.folder.holds("labels/labels.pdf"));
  CHECK(ledger({"label"}).code == 2);
}

TEST_CASE("remnants that are kept get labels, scrap gets none") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", R"(format = 1
bench = { scale_step = "1 mg" }
[strips.tan]
lot = "May"
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
pieces = [{ tag = "a", length = "2 m" }]
keep = "300 mm"
[[motors]]
id = "TH"
count = 2
loop = "300 mm"
)");
  const auto kept = run({"label", "--pieces", plan, "--out", folder.path("out")});
  CHECK(kept.code == 0);
  CHECK(has(kept.out, "remnants.pdf (1 label)"));
  CHECK(folder.read("out/remnants.pdf").starts_with("%PDF"));
  std::string text = folder.read("night.toml");
  text.replace(text.find("300 mm"), 6, "900 mm");
  const auto none = run({"label", "--pieces", folder.write("scrap.toml", text)});
  CHECK(none.code == 1);
  CHECK(has(none.err, "no remnant is kept"));
}

TEST_CASE("ids may be parted by commas or by blanks") {
  const LedgerBench ledger;
  const std::string out = ledger.folder.path("out");
  CHECK(has(ledger({"label", "th1,th2", "--out", out}).out, "(2 labels)"));
  CHECK(has(ledger({"label", "th1,", "th2", "--out", out}).out,
            "(2 labels), in place of the file that was there\n"));
  CHECK(ledger({"label", "th1,zz9", "--out", out}).code == 4);
  const Ran ran = run({"print", ledger.folder.path("night.toml"), "--only", "th1 th2"});
  CHECK(has(ran.out, "2 were there already"));
}
