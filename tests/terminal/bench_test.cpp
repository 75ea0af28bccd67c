// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <sstream>

#include "support/cli_run.h"
#include "support/done.h"

using namespace loopledger;
using test::done;
using test::has;
using test::run;
using test::TempFolder;

namespace {

constexpr const char* kBenchPlan = R"(format = 1
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
rings.small = { weighed = 10, mass = "60 mg", spread = "0.3 mg" }
lubricants.oil = { uptake = "1 %" }
recipes.slow = { steps = [{ stretch = 4, hold = "5 min" }, { turns = "50 %", hold = "1 min" }] }
[strips.tan]
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
talc = "2 %"
[[motors]]
id = "TH"
count = 3
owner = "Anna"
rule = "club"
rings = "small"
lubricant = "oil"
recipe = "slow"
mass = "limit"
)";

/// A bench with a plan that is printed; `says` is what it answers to these lines.
class Bench {
 public:
  Bench() : plan_(folder.write("night.toml", kBenchPlan)) {
    const auto printed = run({"print", plan_});
    REQUIRE_MESSAGE(printed.code == 0, printed.err);
  }
  [[nodiscard]] test::Ran with(const std::string& lines) const {
    return run({"bench", plan_}, lines);
  }
  [[nodiscard]] std::string says(const std::string& lines) const { return with(lines).out; }
  [[nodiscard]] std::string record(int n) const {
    return folder.read("records/TH-0" + std::to_string(n) + ".toml");
  }

  TempFolder folder;

 private:
  std::string plan_;
};

}  // namespace

TEST_CASE("a reading is answered in one line that says what to do, and is in the record") {
  const Bench bench;
  // The washed window is 1.496 to 1.498 g; 14 mg over and half the window are 7.5 mm of 2 g/m.
  CHECK(bench.says("th3 washed 1.512\n") == "TH-03 Anna: 14 mg over, snip 8 mm (washed 1.512 g)\n");
  CHECK(has(bench.record(3), "kind = \"weighed\", stage = \"washed\", reading = \"1.512 g\""));
  CHECK(bench.says("th3 1.497\n") ==
        "TH-03 Anna: OK, within its window (washed 1.497 g, 3 mg to spare)\n");
  CHECK(bench.says("th2 washed 1.440\n") ==
        "TH-02 Anna: too light by 56 mg, still good for 1.45 g (washed 1.440 g)\n");
}

TEST_CASE("the stage follows from the record: as cut with talc on, washed, tied, finished") {
  const Bench bench;
  CHECK(bench.says("th1 1.545\nth2 1.540\nth1 1.498\nth1 loop 367\nth1 1.509\nth1 1.524\n") ==
        "TH-01 Anna: OK, long enough (as cut 1.545 g)\n"
        "TH-02 Anna: OK, long enough (as cut 1.540 g)\n"
        "TH-01 Anna: OK, within its window (washed 1.498 g, 2 mg to spare)\n"
        "TH-01 Anna: tied, loop 367 mm\n"
        "TH-01 Anna: OK, within its window (tied 1.509 g, 2 mg to spare)\n"
        "TH-01 Anna: OK, within its window (finished 1.524 g, 2 mg to spare)\n");
}

TEST_CASE("tails are on the scale until a motor is tied, and no rubber of it anywhere else") {
  // Strip of 2 g/m with tails of 30 mm: 60 mg. The washed window without them is 1.496 to 1.498 g.
  const TempFolder folder;
  std::string text = kBenchPlan;
  text.replace(text.find("mass = \"limit\""), 0, "tails = \"30 mm\"\n");
  const std::string plan = folder.write("night.toml", text);
  CHECK(has(run({"check", plan}).out, "  1.556–1.558  "));
  REQUIRE(run({"print", plan}).code == 0);
  CHECK(run({"bench", plan}, "th1 washed 1.557\nth1 loop 367\nth1 1.509\nth2 washed 1.572\n").out ==
        "TH-01 Anna: OK, within its window (washed 1.557 g, tails on, 3 mg to spare)\n"
        "TH-01 Anna: tied, loop 367 mm\n"
        "TH-01 Anna: OK, within its window (tied 1.509 g, 3 mg to spare)\n"
        "TH-02 Anna: 14 mg over, snip 8 mm (washed 1.572 g, tails on)\n");
  const std::string records = folder.path("records");
  CHECK(has(run({"list", "--records", records}).out, "  1.497  "));
  CHECK(has(run({"list", "--records", records, "--json"}).out, "\"washed_g\": 1.497"));
  const auto show = run({"show", "th1", "--records", records});
  CHECK(has(show.out, "washed, tails on   1.556  1.558   1.557  within its window"));
  CHECK(has(run({"log", "th2", "weighed", "washed", "1.557", "--records", records}).out,
            "within its window; counted 1.497 g"));
  // Tied without snipping them.
  REQUIRE(run({"bench", plan}, "th2 loop 367\n").code == 0);
  CHECK(has(run({"bench", plan}, "th2 tied 1.569\n").out, "tails still on?"));
  REQUIRE(run({"log", "th1", "wound", "turns=700", "--records", records}).code == 0);
  REQUIRE(run({"label", "th1", "--records", records, "--out", folder.path("out")}).code == 0);
  CHECK(has(folder.read("records/TH-01.toml"), "MADE 700T 1.497G"));
}

TEST_CASE(
    "a motor weighed tied before its loop is measured is not taken for washed and too heavy") {
  const Bench bench;
  CHECK(bench.says("th1 washed 1.498\nth1 1.509\n") ==
        "TH-01 Anna: OK, within its window (washed 1.498 g, 2 mg to spare)\n"
        "TH-01 Anna: OK, within its window (tied 1.509 g, 2 mg to spare)\n");
  const std::string one_ring = bench.says("th2 washed 1.498\nth2 1.504\n");
  CHECK(has(one_ring, "1 ring forgotten?"));
  CHECK_FALSE(has(one_ring, "snip"));
  // The same motor on the scale again is still washed; so is one that was over and is trimmed.
  CHECK(has(bench.says("th3 washed 1.512\nth3 1.500\nth3 1.497\nth3 1.498\n"),
            "TH-03 Anna: OK, within its window (washed 1.498 g, 2 mg to spare)\n"));
}

TEST_CASE("a forgotten ring is named before the reading is stored") {
  const Bench bench;
  const std::string before = "th1 washed 1.497\nth1 loop 366\n";
  done(bench.with(before));
  const std::string record = bench.record(1);
  CHECK(bench.says("th1 1.503\nn\n") ==
        "TH-01 Anna: tied minus washed 6 mg, rings and glue 12 mg: 1 ring forgotten?\n"
        "not stored\n");
  CHECK(bench.record(1) == record);
  CHECK(has(bench.says("th1 1.503\ny\n"), "TH-01 Anna: too light by 5 mg"));
  CHECK(bench.record(1) != record);
}

TEST_CASE("numbers ten times off or far outside are asked back, a new line answers too") {
  const Bench bench;
  CHECK(bench.says("th1 14.97\nth1 1.497\n") ==
        "TH-01 Anna: 14.970 g is ten times off; as cut it should read about 1.548 g? type 1.497\n"
        "TH-01 Anna: OK, within its window (washed 1.497 g, 3 mg to spare)\n");
  CHECK(has(bench.says("th2 washed 0.9\n"), "is far off; washed it should read about 1.497 g?"));
  CHECK_FALSE(has(bench.record(2), "kind = \"weighed\""));
}

TEST_CASE("turns, torque and the loop after break-in find their place") {
  const Bench bench;
  const std::string out = bench.says(
      "th1 washed 1.497\nth1 loop 366\nth1 1.509\nth1 1.524\nth1 970 30 gf.cm\nth1 378\n"
      "th1 1200 41 gf.cm stopped\n");
  CHECK(has(out, "TH-01 Anna: broken in, step 2, to 970 turns at 30 gf.cm\n"));
  CHECK(has(out, "TH-01 Anna: broken in, loop after 378 mm; set +3.3 %, wind to "));
  CHECK(has(out, "TH-01 Anna: wound to 1200 turns at 41 gf.cm, stopped\n"));
}

TEST_CASE("bench and show agree on the step that is next, repeats and a new knot included") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", R"(format = 1
bench = { scale_step = "1 mg" }
recipes.two = { steps = [{ stretch = 4 }, { turns = "40 %", repeat = 2 }, { turns = "60 %" }] }
[strips.tan]
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
[[motors]]
id = "TH"
loop = "300 mm"
recipe = "two"
)");
  REQUIRE(run({"print", plan}).code == 0);
  const std::string records = folder.path("records");
  const auto next = [&] { return run({"show", "th1", "--records", records}).out; };
  const std::string mass = "1.232\n";
  CHECK(run({"bench", plan}, "th1 washed " + mass + "th1 loop 300\n").code == 0);
  CHECK(has(next(), "Next: break-in step 1 of 3: stretch to 1200 mm"));
  CHECK(has(run({"bench", plan}, "th1 600\n").out, "broken in, step 2, to 600 turns"));
  CHECK(has(next(), "Next: break-in step 2 of 3 (time 2 of 2)"));
  CHECK(has(run({"bench", plan}, "th1 610\n").out, "broken in, step 2, to 610 turns"));
  CHECK(has(next(), "Next: break-in step 3 of 3"));
  for (const char* kind : {"broke", "tied"}) {
    std::vector<std::string> words{"log", "th1", kind};
    words.emplace_back(std::string(kind) == "tied" ? "loop=290 mm" : "where=knot");
    words.insert(words.end(), {"--records", records});
    REQUIRE(run(words).code == 0);
  }
  CHECK(has(next(), "Next: break-in step 1 of 3"));
  CHECK(has(run({"bench", plan}, "th1 600\n").out, "broken in, step 2, to 600 turns"));
}

TEST_CASE("undo takes the last entry back and can be done again and again") {
  const Bench bench;
  const std::string out = bench.says("th1 washed 1.497\nth2 washed 1.498\nundo\nundo\nundo\n");
  CHECK(has(out, "TH-02: taken back: weighed washed: 1.498 g\n"));
  CHECK(has(out, "TH-01: taken back: weighed washed: 1.497 g\n"));
  CHECK(has(out, "nothing to take back\n"));
  CHECK(has(bench.record(1), "corrects = "));
  // What was taken back is asked for again.
  CHECK(bench.says("th1 washed 1.496\n") ==
        "TH-01 Anna: OK, within its window (washed 1.496 g, 4 mg to spare)\n");
}

TEST_CASE("a scanned tag names the motor; what can't be understood stores nothing") {
  const Bench bench;
  CHECK(bench.says("TH-02-H EST 1554T 1.497G 366MM L1\nwashed 1.497\n") ==
        "TH-02 Anna: OK, within its window (washed 1.497 g, 3 mg to spare)\n");
  const std::string record = bench.record(1);
  const auto wrong = bench.with("th1 abc\nzz9 1.5\nth1 1,497\n");
  CHECK(wrong.code == 1);
  CHECK(has(wrong.err, "can't tell what \"abc\" is"));
  CHECK(has(wrong.err, "neither the plan nor the ledger has ZZ-09"));
  CHECK(bench.record(1) == record);
}

TEST_CASE("a check weight is judged and kept with the readings that follow") {
  const Bench bench;
  const std::string out = bench.says("check 1.001\ncheck 5 g 5.004 g\nth1 washed 1.497\n");
  CHECK(has(out,
            "check weight: 1 mg off, as good as the plan says; tonight it errs from 0 to 1 mg, "
            "the plan takes ± 1 mg\n"));
  CHECK(has(out, "check weight: 4 mg off, more than the scale's 1 mg: set it right"));
  CHECK(has(bench.record(1), "check weight 5 g read 5.004 g"));
}

TEST_CASE("bench before print says what to do") {
  const TempFolder folder;
  const auto ran = run({"bench", folder.write("night.toml", kBenchPlan)}, "th1 1.5\n");
  CHECK(ran.code == 4);
  CHECK(has(ran.err, "no motor of this plan has a record yet"));
  CHECK(has(ran.err, "`loopledger print` opens them"));
}

TEST_CASE("a step that only a torque stops is asked for with the turns never to pass") {
  const TempFolder folder;
  const std::string plan = folder.write(
      "night.toml",
      "format = 1\nbench = { scale_step = \"1 mg\" }\n[strips.tan]\nsamples = [[\"1 m\", \"2 g\"], "
      "[\"1 m\", \"2 g\"], [\"1 m\", \"2 g\"]]\n[recipes.six]\ntake = \"stretch-6-wind-75\"\n"
      "[[motors]]\nid = \"AB\"\nloop = \"300 mm\"\nrecipe = \"six\"\n");
  REQUIRE(run({"print", plan}).code == 0);
  const std::string said =
      run({"bench", plan}, "ab1 washed 1.232\nab1 loop 300\nab1 900 38 gf.cm\n").out;
  CHECK_MESSAGE(has(said, "AB-01"), said);
  CHECK(has(folder.read("records/AB-01.toml"), "kind = \"break_in\", step = 2, turns = 900"));
}

TEST_CASE("a motor that broke is not told to wind, and takes a reading only when asked back") {
  const Bench bench;
  CHECK(has(bench.says("th1 washed 1.497\nth1 loop 366\nth1 broke 200\n"), "TH-01 Anna: broke at"));
  const std::string record = bench.record(1);
  for (const char* line : {"th1 378 mm", "th1 150 20 gf.cm", "th1 flown 2:10"}) {
    const std::string said = bench.says(std::string(line) + "\n\n");
    CHECK_MESSAGE(has(said, "it is retired; if it has a new knot, log that it is tied first"),
                  said);
    CHECK_FALSE(has(said, "wind to"));
  }
  CHECK(bench.record(1) == record);
  CHECK_FALSE(has(bench.says("th1 378 mm\ny\n"), "wind to"));
  CHECK(bench.record(1) != record);
  const std::string retied = bench.says("th1 note kept for its knot\nth1 tied loop=366mm\n");
  CHECK(has(retied,
            "TH-01 Anna: kept for its knot\nTH-01 Anna: tied, loop 366mm; a new knot: the loop of "
            "378 mm of before is history\n"));
  CHECK(has(bench.says("th1 tied \"loop=366 mm\"\n"), "the same again, undo takes it back"));
}

TEST_CASE("undo at an open question drops the question and takes nothing back") {
  const Bench bench;
  const std::string out = bench.says("th1 washed 1.497\nth1 1.9\nundo\n");
  CHECK(has(out, "is far off"));
  CHECK(has(out, "not stored; undo again takes back TH-01: weighed washed: 1.497 g\n"));
  CHECK_FALSE(has(out, "taken back"));
  CHECK_FALSE(has(bench.record(1), "corrects"));
  CHECK(has(bench.says("th1 2.9\nu\n"), "not stored\n"));
}

TEST_CASE(
    "a motor planned well under its limit reads as within its window, or light for its plan") {
  const TempFolder folder;
  std::string plan = kBenchPlan;
  plan.replace(plan.find("mass = \"limit\""), 14, "mass = \"1.2 g\"");
  plan.replace(plan.find("\"Anna\""), 6, "\"Źanetą Łoś\"");
  const std::string path = folder.write("night.toml", plan);
  REQUIRE(run({"print", path}).code == 0);
  CHECK(run({"bench", path}, "th1 washed 1.200\nth2 washed 1.150\n").out ==
        "TH-01 Źanetą Łoś: OK, within its window (washed 1.200 g, 300 mg to spare)\n"
        "TH-02 Źanetą Łoś: too light by 49 mg for what was planned, within the limit of 1.5 g "
        "(washed 1.150 g)\n");
}

TEST_CASE("slips at the scale get a hint: a comma, a check character, a mistyped id, as cut") {
  const Bench bench;
  CHECK(has(bench.with("th1 1,497\n").err, "hint: decimals stand behind a point"));
  CHECK(has(bench.with("th-01-9 1.497\n").err, "check character"));
  CHECK(has(bench.with("tho1 1.497\n").err, "did you mean TH-01? nothing was stored"));
  const std::string record = bench.record(1);
  CHECK(record.find("kind = \"weighed\"") == std::string::npos);
  CHECK(bench.says("th1 1.545 as cut\nth2 as cut 1.545\nth3 1.497 washed\n") ==
        "TH-01 Anna: OK, long enough (as cut 1.545 g)\n"
        "TH-02 Anna: OK, long enough (as cut 1.545 g)\n"
        "TH-03 Anna: OK, within its window (washed 1.497 g, 3 mg to spare)\n");
}

TEST_CASE("cranks are taken as turns where the plan tells the winder's ratio") {
  const TempFolder folder;
  std::string plan = kBenchPlan;
  const auto printed = [&](const char* id, const std::string& bench) {
    std::string text = plan;
    text.replace(text.find("\"1 mg\""), 6, bench);
    text.replace(text.find("\"TH\""), 4, id);
    const std::string path = folder.write("night.toml", text);
    REQUIRE(run({"print", path}).code == 0);
    return path;
  };
  const std::string geared = printed("\"TH\"", "\"1 mg\", winder_ratio = 10");
  const std::string said = run({"bench", geared},
                               "th1 tied loop=366mm\nth1 97 cranks 30 gf.cm\nth2 tied loop=366mm\n"
                               "th2 wound 42 cranks\n"
                               "th2 wound turns=43 cranks\nth2 note 42 cranks were enough\n")
                               .out;
  CHECK_MESSAGE(has(said, "to 970 turns at 30 gf.cm\n"), said);
  CHECK_MESSAGE(has(said, "TH-02 Anna: wound to 420 turns\n"), said);
  CHECK_MESSAGE(has(said, "TH-02 Anna: wound to 430 turns\n"), said);
  CHECK_MESSAGE(has(said, "TH-02 Anna: 42 cranks were enough\n"), said);
  const auto bare = run({"bench", printed("\"TJ\"", "\"1 mg\"")}, "tj1 wound 42 cranks\n");
  CHECK(bare.code == 1);
  CHECK(has(bare.err, "cranks are no turns as long as the winder's ratio is not known"));
}

TEST_CASE("a winding typed twice is told, so that it can be taken back") {
  const Bench bench;
  const std::string out =
      bench.says("th1 loop 366\nth1 wound 1000\nth1 wound 1000\nth1 wound 1010\n");
  CHECK(has(out,
            "TH-01 Anna: wound to 1000 turns\nTH-01 Anna: wound to 1000 turns; the same again, "
            "undo takes it back\nTH-01 Anna: wound to 1010 turns\n"));
}

TEST_CASE("in inches a doubt is in inches too") {
  const Bench bench;
  const auto asked = run({"bench", bench.folder.path("night.toml"), "--units", "inch"},
                         "th1 weighed washed 1.497\nth1 loop 30\n");
  CHECK_MESSAGE(has(asked.out, "a loop of 30.00 in does not fit: the mass says about 14.42 in?"),
                asked.out);
}

TEST_CASE("bench and print name the files that they pass over") {
  const Bench bench;
  bench.folder.write("records/TH-02 (conflict).toml", "x");
  CHECK(has(bench.with("stop\n").err, "TH-02 (conflict).toml: note: "));
  for (const std::string option : {"--overwrite", "--new"}) {
    const auto printed = run({"print", bench.folder.path("night.toml"), option});
    CHECK(has(printed.err, "TH-02 (conflict).toml: note: "));
  }
}

TEST_CASE("the bench stays on a motor until it is washed, unless another is named") {
  const Bench bench;
  CHECK(bench.says("th1 1.545\n1.512\n1.497\n1.546\nth1 loop 366\n1.496\n") ==
        "TH-01 Anna: OK, long enough (as cut 1.545 g)\n"
        "TH-01 Anna: 14 mg over, snip 8 mm (washed 1.512 g)\n"
        "TH-01 Anna: OK, within its window (washed 1.497 g, 3 mg to spare)\n"
        "TH-02 Anna: OK, long enough (as cut 1.546 g)\n"
        "TH-01 Anna: tied, loop 366 mm\n"
        "TH-02 Anna: OK, within its window (washed 1.496 g, 4 mg to spare)\n");
}

TEST_CASE("undo after a restart takes back the last entry of tonight, and goes on back") {
  const Bench bench;
  done(bench.with("th1 washed 1.497\nth2 washed 1.498\n"));
  CHECK(has(bench.says("undo\n"), "TH-02: taken back: weighed washed: 1.498 g, of 2026-05-01"));
  CHECK(has(bench.says("undo\nundo\n"), "TH-01: taken back: weighed washed: 1.497 g, of "));
  CHECK(bench.says("undo\n") == "nothing to take back\n");
  const std::string records = bench.folder.path("records");
  REQUIRE(run({"log", "th1", "weighed", "washed", "1.497", "--at", "2026-04-30 20:00", "--records",
               records})
              .code == 0);
  CHECK(bench.says("undo\n") == "nothing to take back\n");
}

TEST_CASE("show, list and an owner's name work at the bench") {
  const TempFolder folder;
  std::string text = kBenchPlan;
  text += "[[motors]]\nid = \"BX\"\nowner = \"Jo Marlow\"\nrule = \"club\"\nmass = \"limit\"\n";
  const std::string plan = folder.write("night.toml", text);
  REQUIRE(run({"print", plan}).code == 0);
  const auto said = [&](const std::string& lines) { return run({"bench", plan}, lines).out; };
  CHECK(has(said("jo marlow\nwashed 1.497\n"), "BX-01 Jo Marlow: OK, within its window"));
  CHECK(has(said("anna\nwashed 1.497\nanna\nwashed 1.496\n"), "TH-02 Anna: OK, within its window"));
  CHECK(said("list\n") ==
        "TH-01 Anna: loop as tied\nTH-02 Anna: loop as tied\nTH-03 Anna: washed, g\n"
        "BX-01 Jo Marlow: loop as tied\n");
  CHECK(has(said("show th1\n"), "TH-01"));
  CHECK(has(said("show th1\n"), "tie it"));
  CHECK(has(run({"bench", plan}, "show zz9\n").err, "holds no ZZ-09"));
}

TEST_CASE("a rule that counts what the motor does not name gets no plain OK") {
  const TempFolder folder;
  std::string text = kBenchPlan;
  text.replace(text.find("\"rubber\"]"), 9, "\"rubber\", \"adhesive\"]");
  const std::string plan = folder.write("night.toml", text);
  REQUIRE(run({"print", plan}).code == 0);
  CHECK(run({"bench", plan}, "th1 washed 1.497\n").out ==
        "TH-01 Anna: in its window (washed 1.497 g, 3 mg to spare), but adhesive counts too, and "
        "the motor names none\n");
}

TEST_CASE("a motor that was over when washed is not plainly OK when it is finished") {
  const Bench bench;
  const std::string said =
      bench.says("th1 washed 1.500\nth1 loop 366\nth1 tied 1.512\nth1 finished 1.527\n");
  CHECK_MESSAGE(has(said, "TH-01 Anna: 2 mg over, snip "), said);
  CHECK_FALSE(has(said, "OK, within its window"));
  CHECK_MESSAGE(has(said, "(finished 1.527 g"), said);
}

TEST_CASE("cranks at the bench are of the plan's winder, or of the option's") {
  const TempFolder folder;
  std::string text = kBenchPlan;
  text.replace(text.find("\"1 mg\""), 6, "\"1 mg\", winder_ratio = 10");
  REQUIRE(run({"print", folder.write("ten.toml", text)}).code == 0);
  text.replace(text.find("winder_ratio = 10"), 17, "winder_ratio = 15");
  const std::string plan = folder.write("fifteen.toml", text);
  CHECK(has(run({"bench", plan}, "th1 loop 366\nth1 wound 70 cranks\n").out, "to 1050 turns"));
  CHECK(has(run({"bench", plan, "--winder-ratio", "12"}, "th1 wound 80 cranks\n").out,
            "to 960 turns"));
}
