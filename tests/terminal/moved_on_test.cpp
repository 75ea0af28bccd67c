// SPDX-License-Identifier: MIT
//
// A motor that has moved on - a new knot, a break, a damaged head - says the same wherever it is
// told: show, list, card, label, print, JSON. The plan's strip is 2.58 g/m: a loop of L mm breaks
// near 4.67 L turns. Invented.
#include <doctest/doctest.h>

#include <fstream>

#include "support/cli_run.h"
#include "support/done.h"
#include "support/pdf_tools.h"

using namespace loopledger::test;

namespace {

constexpr const char* kPlan = R"(format = 1
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
strips.tan = { width = "2.5 mm", samples = [["500 mm", "1.290 g"]] }
[[motors]]
id = "AB"
count = 3
rule = "club"
mass = "limit"
)";

class Night {
 public:
  Night() : plan_(folder.write("n.toml", kPlan)) { done(print()); }
  Ran print(const std::string& plan = {}) const {
    return run({"print", plan.empty() ? plan_ : plan, "--records", folder.path("records"), "--out",
                folder.path("out")});
  }
  Ran operator()(std::vector<std::string> words) const {
    words.insert(words.end(), {"--records", folder.path("records")});
    return run(words);
  }
  /// An entry that must be taken, whatever it says.
  void log(std::vector<std::string> words) const {
    words.insert(words.begin(), "log");
    words.emplace_back("--sure");
    done((*this)(words));
  }
  std::string label(const std::string& id) const {
    done((*this)({"label", id, "--out", folder.path("o")}));
    return text_of("o/labels.pdf");
  }
  std::string card(const std::string& id) const {
    done((*this)({"card", id, "--out", folder.path("o")}));
    return text_of("o/card.pdf");
  }
  std::string text_of(const std::string& pdf) const {
    return done(run_tool("pdftotext -layout " + folder.path(pdf) + " -")).out;
  }

  TempFolder folder;

 private:
  std::string plan_;
};

void tie_again(const Night& night) {
  night.log({"ab1", "tied", "loop=283 mm", "--at", "2026-04-01 10:00"});
  night.log({"ab1", "break_in", "loop_after=292 mm", "--at", "2026-04-01 11:00"});
  night.log({"ab1", "wound", "turns=1050", "torque=46 gf.cm", "--at", "2026-04-01 12:00"});
  done(night({"label", "ab1", "--out", night.folder.path("o")}));
  night.log({"ab1", "tied", "loop=200 mm", "--at", "2026-04-02 10:00"});
}

}  // namespace

TEST_CASE(
    "a new knot: show, list, label, card and JSON go by the new loop, the old best is history") {
  const Night night;
  tie_again(night);
  CHECK(has(night({"show", "ab1"}).out, "wind to 747 turns, do not pass 798"));
  CHECK_FALSE(has(done(night({"show", "ab1"})).out, "best 1050"));
  CHECK(has(night({"list"}).out, "200 mm t"));
  CHECK_FALSE(has(done(night({"list"})).out, "1050"));
  CHECK(has(night({"list", "--stale"}).out, "AB-01"));
  const std::string json = night({"show", "ab1", "--json"}).out;
  CHECK(has(json, "\"knots\": 2"));
  CHECK(has(json, "\"best_turns\": null"));
  const std::string label = night.label("ab1");
  CHECK(has(label, "estimate 747 T"));
  CHECK_FALSE(has(label, "1050"));
  CHECK(has(night.card("ab1"), "747"));
}

TEST_CASE("a best past \"do not pass\" is told and is nobody's target") {
  const Night night;
  night.log({"ab1", "tied", "loop=282 mm"});
  night.log({"ab1", "wound", "turns=1450", "torque=46 gf.cm"});
  const std::string shown = done(night({"show", "ab1"})).out;
  CHECK(has(shown, "past \"do not pass\" 1125"));
  CHECK(has(shown, "Next: wind to 1053 turns, do not pass 1125"));
  CHECK_FALSE(has(shown, "best 1450"));
  const std::string label = night.label("ab1");
  CHECK(has(label, "wind to 1053 T"));
  CHECK_FALSE(has(label, "1450"));
  CHECK(has(night.card("ab1"), "1450 turns, past “do not pass”"));
  CHECK(has(night({"show", "ab1", "--json"}).out, "\"beyond_turns\": 1450"));
}

TEST_CASE("figures that rest on a damaged head are marked wherever they stand") {
  const Night night;
  night.log({"ab1", "tied", "loop=282 mm"});
  night.log({"ab1", "break_in", "loop_after=290 mm"});
  std::string record = night.folder.read("records/AB-01.toml");
  const std::size_t at = record.find("turns_factor = 11");
  REQUIRE(at != std::string::npos);
  record.replace(at, 17, "turns_factor = 41");
  (void)night.folder.write("records/AB-01.toml", record);
  CHECK(has(night({"show", "ab1"}).out, "don't rely on them"));
  CHECK(has(night({"list"}).out, "(check)"));
  const std::string label = night.label("ab1");
  CHECK(has(label, "CHECK"));
  CHECK_FALSE(has(label, " 4"));  // some 4,000 turns, which would wind it past its strength
  const std::string card = night.card("ab1");
  CHECK(has(card, "RECORD DAMAGED"));
  CHECK_FALSE(has(card, "do not pass"));
}

TEST_CASE("a label that said CHECK is out of date once the record is right again") {
  const Night night;
  night.log({"ab1", "tied", "loop=282 mm"});
  night.log({"ab1", "break_in", "loop_after=290 mm"});
  const std::string sound = night.folder.read("records/AB-01.toml");
  std::string damaged = sound;
  damaged.replace(damaged.find("turns_factor = 11"), 17, "turns_factor = 41");
  (void)night.folder.write("records/AB-01.toml", damaged);
  CHECK(has(night({"list", "--stale"}).out, "AB-01"));
  CHECK(has(night.label("ab1"), "CHECK"));
  CHECK_FALSE(has(done(night({"list", "--stale"})).out, "AB-01"));
  const std::string noted = night.folder.read("records/AB-01.toml").substr(damaged.size());
  (void)night.folder.write("records/AB-01.toml", sound + noted);
  CHECK(has(night({"list", "--stale"}).out, "AB-01"));
  CHECK_FALSE(has(night.label("ab1"), "CHECK"));
  CHECK_FALSE(has(done(night({"list", "--stale"})).out, "AB-01"));
}

TEST_CASE("cranks are of the winder that is said, and to wind is under never") {
  const Night night;
  CHECK_FALSE(has(done(night({"show", "ab1"})).out, "cranks"));
  night.log({"ab1", "tied", "loop=282 mm"});
  night.log({"ab1", "wound", "turns=900"});
  CHECK(has(night({"show", "ab1", "--winder-ratio", "10"}).out,
            "wind to 1053 turns = 105 cranks, do not pass 1125 = 112 cranks (winder 10:1)"));
  // 1053 and 1125 turns both hold 11 cranks of this one.
  CHECK(has(night({"show", "ab1", "--winder-ratio", "95"}).out,
            "= 10 cranks, do not pass 1125 = 11 cranks"));
  CHECK(has(night({"show", "ab1", "--winder-ratio", "100"}).out,
            "wind to 1053 turns = 10 cranks, do not pass 1125 = 11 cranks (winder 100:1)"));
  CHECK(run({"show", "ab1", "--records", night.folder.path("records")}, {},
            {{"LOOPLEDGER_WINDER_RATIO", "10"}})
            .out.find("105 cranks") != std::string::npos);
  const Ran wrong = night({"show", "ab1", "--winder-ratio", "ten"});
  CHECK(wrong.code == 1);
  CHECK(has(wrong.err, "winder-ratio"));
}

TEST_CASE("a night printed again says who has moved on, and prints what is so now") {
  const Night night;
  night.log({"ab1", "tied", "loop=282 mm"});
  night.log({"ab1", "broke", "turns=1000"});
  night.log({"ab2", "tied", "loop=283 mm"});
  night.log({"ab2", "wound", "turns=980", "torque=41 gf.cm"});
  const Ran again = night.print();
  CHECK(again.code == 0);
  CHECK(has(again.err, "AB-01-9 is retired since the plan was made"));
  CHECK(has(again.err, "AB-02-7 is broken in since the plan was made"));
  const std::string labels = night.text_of("out/labels.pdf");
  CHECK_FALSE(has(labels, "AB-01-9"));
  CHECK(has(labels, "best 980 T"));
  CHECK(has(labels, "AB-03"));
  CHECK(has(night.text_of("out/cut-sheet.pdf"), "RETIRED"));
  CHECK(has(night.text_of("out/cut-sheet.pdf"), "BROKEN IN"));
  CHECK_FALSE(has(night.text_of("out/break-in.pdf"), "AB-01-9"));
}

TEST_CASE("a plan with other factors prints by the record's, and says so") {
  const Night night;
  std::string plan = kPlan;
  plan.replace(plan.find("samples = "), 10, "turns_factor = 14.5, samples = ");
  const Ran again = night.print(night.folder.write("other.toml", plan));
  CHECK(again.code == 0);
  CHECK(has(again.err, "the record has k_N 11 and not 14.5"));
  CHECK(has(night.text_of("out/labels.pdf"), "estimate 1054 T"));
  CHECK_FALSE(has(night.text_of("out/break-in.pdf"), "14.5"));
}

TEST_CASE("a line that can't be relied on ends no life, and is looked at first") {
  const Night night;
  night.log({"ab1", "tied", "loop=282 mm"});
  night.log({"ab1", "wound", "turns=900"});
  std::ofstream(night.folder.path("records/AB-01.toml"), std::ios::app)
      << "\"20260601T190000Z-hand\" = { kind = \"broke\" }\n";
  CHECK(has(night({"show", "ab1"}).out, "Next: look at it first"));
  CHECK(has(night({"list"}).out, "broken in (check)"));
  CHECK(has(night.card("ab1"), "MAY HAVE BROKEN"));
}
