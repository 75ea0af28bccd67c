// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "ledger_bench.h"
#include "support/done.h"
#include "support/read_json.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

/// A motor on its way through break-in.
void break_in(const LedgerBench& ledger, const std::string& id) {
  done(ledger({"log", "--sure", id, "weighed", "washed", "1.497"}));
  done(ledger({"log", "--sure", id, "tied", "loop=365 mm"}));
  done(ledger({"log", "--sure", id, "break_in", "turns=700", "loop_after=377 mm"}));
}

}  // namespace

TEST_CASE(
    "a label is out of date once break-in changed what it says, and fresh when printed anew") {
  const LedgerBench ledger;
  const std::string out = ledger.folder.path("out");
  CHECK(has(ledger({"list", "--stale"}).out, "No such motors"));
  done(ledger({"log", "--sure", "th1", "weighed", "washed", "1.497"}));
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
  done(ledger({"log", "--sure", "th1", "flown", "7:31"}));
  CHECK(has(ledger({"list", "--stale"}).out, "No such motors"));
  done(ledger({"log", "--sure", "th1", "wound", "1400", "41 gf.cm", "stopped"}));
  CHECK(has(ledger({"list", "--stale"}).out, "TH-01-J"));
  done(ledger({"label", "th1", "--out", out}));
  CHECK(has(ledger.last_line(), "MADE 1400T 41GFCM"));
}

TEST_CASE("a retired motor's label is not out of date") {
  const LedgerBench ledger;
  break_in(ledger, "th1");
  done(ledger({"log", "th1", "retired", "frayed"}));
  CHECK(has(ledger({"list", "--stale"}).out, "No such motors"));
}

TEST_CASE("an id that is not held prints nothing, and no words at all are a usage error") {
  const LedgerBench ledger;
  const std::string out = ledger.folder.path("labels");
  CHECK(ledger({"label", "th1", "zz9", "--out", out}).code == 4);
  CHECK_FALSE(ledger.folder.holds("labels/labels.pdf"));
  CHECK(ledger({"label"}).code == 2);
}

TEST_CASE("label --json: the file, how many labels, whose; nothing where none is printed") {
  const LedgerBench ledger;
  const std::string out = ledger.folder.path("labels");
  const Ran none = ledger({"label", "--stale", "--out", out, "--json"});
  CHECK(none.code == 0);
  check_json(none.out,
             {{"file", "null"}, {"labels", "0"}, {"motors", "[]"}, {"diagnostics", "[]"}});
  const Ran two = ledger({"label", "th2", "th1", "--copies", "2", "--out", out, "--json"});
  CHECK(two.code == 0);
  check_json(two.out, {{"format", "1"},
                       {"file", "\"" + ledger.folder.path("labels/labels.pdf") + "\""},
                       {"labels", "4"},
                       {"motors", "[\"TH-02\", \"TH-01\"]"},
                       {"diagnostics", "[]"}});
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

TEST_CASE("no label is written for a record that it can't be noted in") {
  const LedgerBench ledger;
  break_in(ledger, "th1");
  ledger.folder.write("records/TH-01.toml", ledger.record() + "\"2026");
  for (const std::string asked : {"th1", "--stale"}) {
    const Ran ran = ledger({"label", asked, "--out", ledger.folder.path("out2")});
    CHECK(ran.code == 1);
    CHECK(ran.out.empty());
    CHECK(has(ran.err, "TH-01: nothing is added to a record with a torn end [record-torn]"));
    CHECK(has(ran.err, "`loopledger mend TH-01` repairs it"));
    CHECK_FALSE(ledger.folder.holds("out2/labels.pdf"));
  }
}

TEST_CASE("a retired motor gets no label, and is named") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "retired", "frayed"}));
  const std::string out = ledger.folder.path("labels");
  const Ran both = ledger({"label", "th1", "th2", "--out", out});
  CHECK(both.code == 0);
  CHECK(has(both.out, "(1 label)"));
  CHECK(has(both.err, "warning: TH-01-J is retired: it gets no label [label-retired]"));
  const Ran alone = ledger({"label", "th1", "--out", ledger.folder.path("none")});
  CHECK(alone.code == 4);
  CHECK(has(alone.err, "no motor to label is among them [none-label]"));
  CHECK_FALSE(ledger.folder.holds("none/labels.pdf"));
}

TEST_CASE("a motor that is meant twice gets one label and one entry") {
  const LedgerBench ledger;
  break_in(ledger, "th1");
  const std::string out = ledger.folder.path("out");
  const auto labelled = [&ledger] {
    int n = 0;
    const std::string text = ledger.record();
    for (std::size_t at = text.find("labelled"); at != std::string::npos;
         at = text.find("labelled", at + 1)) {
      ++n;
    }
    return n;
  };
  CHECK(has(ledger({"label", "th1", "TH-01-J", "--stale", "--out", out}).out, "(1 label)"));
  CHECK(labelled() == 1);
}

TEST_CASE("label --stale names the files that it passes over") {
  const LedgerBench ledger;
  ledger.folder.write("records/TH-02 (conflict).toml", "x");
  CHECK(has(ledger({"label", "--stale"}).err, "TH-02 (conflict).toml: note: "));
}

TEST_CASE("remnants of a night that the pieces don't reach: --short, and never without a size") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", R"(format = 1
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
[strips.tan]
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
pieces = [{ tag = "a", length = "2 m" }]
keep = "100 mm"
[[motors]]
id = "TH"
count = 4
loop = "300 mm"
)");
  const Ran refused = run({"label", "--pieces", plan, "--out", folder.path("out")});
  CHECK(refused.code == 1);
  CHECK(has(refused.err, "--short"));
  const Ran ran = run({"label", "--pieces", plan, "--short", "--out", folder.path("out")});
  CHECK_MESSAGE(ran.code == 0, ran.err);
  CHECK(has(ran.out, "remnants.pdf (1 label)"));
  const Ran motors = run({"label", "th1", "--short"});
  CHECK(motors.code == 2);
  CHECK(has(motors.err, "expected --pieces PLAN with --short"));
  const Ran undecided =
      run({"label", "--pieces",
           folder.write("choose.toml",
                        folder.read("night.toml") + "[[motors]]\nid = \"AB\"\nrule = \"club\"\n"),
           "--short", "--out", folder.path("out")});
  CHECK(undecided.code == 1);
  CHECK(has(undecided.err, "[motor-size]"));
}

TEST_CASE("label --stale of a folder without records is nothing found, not all well") {
  const TempFolder folder;
  const Ran ran = run({"label", "--stale", "--records", folder.path("nowhere")});
  CHECK(ran.code == 4);
  CHECK(ran.out.empty());
  CHECK(has(ran.err, "no records are in " + folder.path("nowhere") + " [none-record]"));
}
