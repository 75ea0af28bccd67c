// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "support/cli_run.h"
#include "support/done.h"
#include "support/read_json.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

/// An invented club's ledger: eight motors of ANNA's, two of BEN's.
class MatchBench {
 public:
  MatchBench() {
    const auto printed = run({"print", folder.write("night.toml", kPlan)});
    REQUIRE_MESSAGE(printed.code == 0, printed.err);
    // Alike by all three figures: TH-02, TH-04 and TH-05; by mass and loop: TH-07 and TH-08.
    tied("th1", "1.490", "290 mm");
    tied("th2", "1.496", "301 mm");
    tied("th3", "1.500", "310 mm");
    tied("th4", "1.497", "302 mm");
    tied("th5", "1.495", "302 mm");
    tied("th6", "1.493", "295 mm");
    tied("th7", "1.499", "305 mm");
    tied("th8", "1.499", "305 mm");
    wound("th1", 1000, "30 gf.cm");
    wound("th2", 1200, "41 gf.cm");
    wound("th3", 1260, "50 gf.cm");
    wound("th4", 1210, "41.5 gf.cm");
    wound("th5", 1190, "42 gf.cm");
    wound("th6", 1100, "35 gf.cm");
  }
  [[nodiscard]] Ran operator()(std::vector<std::string> words) const {
    words.emplace_back("--records");
    words.push_back(folder.path("records"));
    return run(words);
  }
  void tied(const char* id, const char* washed, const char* loop) const {
    done((*this)({"log", "--sure", id, "weighed", "washed", washed}));
    done((*this)({"log", "--sure", id, "tied", loop}));
  }
  void wound(const char* id, int turns, const char* torque) const {
    done((*this)({"log", "--sure", id, "wound", std::to_string(turns), torque}));
  }
  /// `text` with the folder's name as DIR.
  [[nodiscard]] std::string told(std::string text) const {
    const std::string dir = folder.path();
    for (std::size_t at = text.find(dir); at != std::string::npos; at = text.find(dir)) {
      text.replace(at, dir.size(), "DIR");
    }
    return text;
  }

  TempFolder folder;

 private:
  static constexpr const char* kPlan = R"(format = 1
title = "Invented night"
date = 2026-02-05
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
[strips.tan]
lot = "May"
width = "2.4 mm"
samples = [["1 m", "2.41 g"], ["1 m", "2.41 g"], ["1 m", "2.41 g"]]
[[motors]]
id = "TH"
count = 8
for = "Heron"
owner = "ANNA"
rule = "club"
mass = "limit"
[[motors]]
id = "QX"
count = 2
owner = "BEN"
loop = "200 mm"
)";
};

}  // namespace

TEST_CASE("match says how alike the motors are, shows them, and who was left out") {
  const MatchBench ledger;
  const Ran ran = ledger({"match", "3"});
  CHECK(ran.code == 0);
  CHECK(ran.err.empty());
  CHECK(ran.out ==
        "3 motors most alike of 6: mass within 2 mg, loop within 1 mm, torque within 1 gf·cm "
        "(0.58, 0.15,\n    0.15 of the spread of all 6)\n"
        "motor    owner  for    washed g      loop  best      torque  full winds\n"
        "-------  -----  -----  --------  --------  ----  ----------  ----------\n"
        "TH-02-H  ANNA   Heron     1.496  301 mm t  1200    41 gf·cm           1\n"
        "TH-04-D  ANNA   Heron     1.497  302 mm t  1210  41.5 gf·cm           1\n"
        "TH-05-B  ANNA   Heron     1.495  302 mm t  1190    42 gf·cm           1\n"
        "loop: p as planned, t as tied, b broken in\n"
        "proven: no other 3 are more alike\n"
        "left out: 2 without a torque, 2 not tied yet\n");
}

TEST_CASE("match --by takes only those figures, in any order, before or behind the number") {
  const MatchBench ledger;
  const Ran ran = ledger({"match", "2", "--by", "loop,mass"});
  CHECK(ran.code == 0);
  CHECK(has(ran.out,
            "2 motors most alike of 8: mass within 0 mg, loop within 0 mm (0, 0 of the spread "
            "of all 8)\n"));
  CHECK(has(ran.out, "TH-07-"));
  CHECK(has(ran.out, "     -       -           0\n"));  // never wound
  CHECK(has(ran.out, "left out: 2 not tied yet\n"));
  CHECK(ledger({"match", "--by", "mass,loop", "2"}).out == ran.out);
  CHECK(has(ledger({"match", "2", "--by", "torque"}).out,
            "2 motors most alike of 6: torque within 0.5 gf·cm ("));
}

TEST_CASE("match: of equal sets the one with the earlier ids") {
  const MatchBench ledger;
  const std::string out = done(ledger({"match", "2", "--by", "torque"})).out;
  CHECK(has(out, "TH-02-"));  // 41 and 41.5, 41.5 and 42 are as close
  CHECK(has(out, "TH-04-"));
  CHECK_FALSE(has(out, "TH-05-"));
}

TEST_CASE("match filters by owner, rule and lot") {
  const MatchBench ledger;
  ledger.tied("qx1", "0.801", "200 mm");
  ledger.tied("qx2", "0.804", "203 mm");
  CHECK(has(ledger({"match", "2", "--by", "mass,loop", "--owner", "ben"}).out,
            "all 2 motors that can be chosen: mass within 3 mg, loop within 3 mm (1.4, 1.4 of"));
  CHECK_FALSE(has(done(ledger({"match", "2", "--by", "mass", "--rule", "club"})).out, "QX"));
  CHECK(has(ledger({"match", "2", "--by", "mass", "--class", "club"}).out, " of 8: "));
  CHECK(has(ledger({"match", "2", "--by", "mass", "--lot", "may"}).out, " of 10: "));
  CHECK(has(ledger({"match", "10", "--by", "mass"}).out, "all 10 motors that can be chosen: "));
}

TEST_CASE("match leaves out what is retired, broken, and what can't be read, and says so") {
  const MatchBench ledger;
  CHECK(ledger({"log", "th1", "retired"}).code == 0);
  CHECK(ledger({"log", "--sure", "th3", "broke"}).code == 0);
  CHECK(ledger({"log", "--sure", "qx1", "tied", "200 mm"}).code == 0);
  ledger.folder.write("records/QX-02.toml", "hello, world\n");
  const Ran ran = ledger({"match", "3"});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, "3 motors most alike of 4: "));
  CHECK(has(ran.out,
            "left out: 2 without a torque, 1 without a washed mass or a torque, 2 retired, "
            "1 record can't be read\n"));
  CHECK(has(ledger.told(ran.err), "DIR/records/QX-02.toml:1:"));
}

TEST_CASE("too few motors: nothing is found, and the hint says which figures would do") {
  const MatchBench ledger;
  const Ran seven = ledger({"match", "7"});
  CHECK(seven.code == 4);
  CHECK(seven.out.empty());
  CHECK(ledger.told(seven.err) ==
        "error: expected 7 motors to choose from in DIR/records, found only 6; left out: 2 "
        "without a torque, 2 not tied yet [none-enough]\n"
        "  hint: --by mass,loop would leave 8 to choose from\n");
  CHECK(has(ledger({"match", "9"}).err,
            "  hint: `loopledger match 6` is the most that can be had; --by mass,loop would "
            "leave 8\n"));
  const Ran mass = ledger({"match", "9", "--by", "mass"});
  CHECK(mass.code == 4);
  CHECK(has(mass.err, "  hint: `loopledger match 8` is the most that can be had\n"));
}

TEST_CASE("too few motors: none of that owner, none tied, no records") {
  const MatchBench ledger;
  const Ran zoe = ledger({"match", "2", "--owner", "zoe"});
  CHECK(zoe.code == 4);
  CHECK(ledger.told(zoe.err) ==
        "error: expected 2 motors to choose from in DIR/records with --owner zoe, found none "
        "[none-enough]\n"
        "  hint: `loopledger list` shows which motors there are\n");
  const Ran ben = ledger({"match", "2", "--owner", "ben"});
  CHECK(ben.code == 4);
  CHECK(has(ben.err, "found none; left out: 2 not tied yet [none-enough]\n"));
  const Ran none = run({"match", "2", "--records", ledger.folder.path("none")});
  CHECK(none.code == 4);
  CHECK(has(none.err, "`loopledger print PLAN` opens a record for each motor\n"));
}

TEST_CASE("match takes a number from 2 to 100 and known figures, all else is usage") {
  for (const char* n : {"1", "0", "-3", "101", "four", "2.5", ""}) {
    CAPTURE(n);
    CHECK(run({"match", n}).code == 2);
  }
  CHECK(run({"match"}).code == 2);
  CHECK(run({"match", "four"})
            .err.starts_with("loopledger: error: N: expected a whole number from 2 to 100, found "
                             "\"four\" [usage-value]\n"));
  CHECK(
      run({"match", "3", "--by", "mss"})
          .err.starts_with("loopledger: error: --by: expected mass, loop or torque, found \"mss\" "
                           "[usage-value]\n  hint: did you mean mass?\n"));
  CHECK(run({"match", "3", "--by", ""}).code == 2);
}

TEST_CASE("match --units inch leads with inches and ounce-inches") {
  const MatchBench ledger;
  const std::string out = ledger({"match", "3", "--units", "inch"}).out;
  CHECK(has(out, "mass within 2 mg, loop within 0.039 in, torque within 0.014 ozf·in ("));
  CHECK(has(out, "1.496  11.85 in t  1200  0.569 ozf·in"));
}

TEST_CASE("match --json has the set, its spread in named units, and the reasons") {
  const MatchBench ledger;
  const Ran ran = ledger({"match", "3", "--json"});
  CHECK(ran.code == 0);
  check_json(
      ran.out,
      {{"format", "1"},
       {"wanted", "3"},
       {"choose_from", "6"},
       {"by", "[\"mass\", \"loop\", \"torque\"]"},
       {"mass.within_mg", "2"},
       {"mass.ledger_mg", "number"},
       {"loop.within_mm", "1"},
       {"torque.within_mNm", "0.0980665"},
       {"proven", "true"},
       {"motors[*].id", R"(["TH-02", "TH-04", "TH-05"])"},
       {"motors[*].washed_g", "[1.496, 1.497, 1.495]"},
       {"motors[*].full_winds", "[1, 1, 1]"},
       {"left_out",
        R"([{"reason": "not_logged", "without": ["torque"], "motors": 2}, {"reason": "not_tied", "without": [], "motors": 2}])"},
       {"diagnostics", "[]"}});
  const Ran few = ledger({"match", "9", "--json", "--by", "loop,torque"});
  CHECK(few.code == 4);
  check_json(few.out, {{"mass", "null"},
                       {"loop", "null"},
                       {"spread", "null"},
                       {"motors", "[]"},
                       {"diagnostics[*].code", "[\"none-enough\"]"}});
}

TEST_CASE("match takes the broken-in loop, and the torque read at the most turns") {
  const MatchBench ledger;
  CHECK(ledger({"log", "--sure", "th2", "break_in", "loop_after=330 mm"}).code == 0);
  CHECK(ledger({"log", "--sure", "th2", "wound", "1250", "70 gf.cm"}).code == 0);
  const std::string out = ledger({"match", "6"}).out;
  CHECK(has(out, "loop within 40 mm, torque within 40 gf·cm"));
  CHECK(has(out, "330 mm b  1250    70 gf·cm"));
}
