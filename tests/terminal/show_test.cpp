// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>

#include "ledger_bench.h"
#include "support/done.h"
#include "support/read_json.h"

using namespace loopledger;
using namespace loopledger::test;

TEST_CASE("show tells whose motor it is, its windows, its turns and what to do next") {
  const LedgerBench ledger;
  const Ran fresh = ledger({"show", "th1"});
  CHECK(fresh.code == 0);
  CHECK(fresh.err.empty());
  CHECK(fresh.out.starts_with("TH-01-J: ANNA, for Heron - planned\n"));
  CHECK(has(fresh.out, "2 strands of tan, lot May, 2.4 mm wide; rule club, at most 1.5 g"));
  CHECK(has(fresh.out, "none yet\n"));
  CHECK(has(fresh.out, "Next: cut it, wash it, let it dry, and log the reading: weighed washed\n"));
  done(ledger({"log", "--sure", "th1", "weighed", "washed", "1.520"}));
  const Ran weighed = ledger({"show", "th1"});
  CHECK(has(weighed.out, "over its window: snip "));
  CHECK(has(weighed.out, "Next: it is over its window: trim it and weigh it again\n"));
}

TEST_CASE("the reading as cut stands in its row") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "weighed", "as_cut", "1.561"}));
  const std::string shown = ledger({"show", "th1"}).out;
  const std::size_t row = shown.find("\nas cut ");
  REQUIRE(row != std::string::npos);
  CHECK(has(shown.substr(row, shown.find('\n', row + 1) - row), "1.561  long enough"));
}

TEST_CASE("no line of show is wider than 100 columns") {
  const LedgerBench ledger;
  for (const char* words : {"1.520", "1.400", "1.497"}) {
    done(ledger({"log", "--sure", "th1", "weighed", "washed", words}));
    done(ledger({"log", "--sure", "th1", "weighed", "finished", words}));
    const std::string out = ledger({"show", "th1"}).out;
    for (std::size_t at = 0; at < out.size();) {
      const std::size_t end = out.find('\n', at);
      CHECK_MESSAGE(end - at <= 104, out.substr(at, end - at));  // bytes: "·" and "±" have two
      at = end + 1;
    }
  }
}

TEST_CASE("show marks what was corrected, edited and torn, and still shows all that is whole") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "wound", "1200", "41 gf.cm"}));
  const std::string key = ledger.last_line().substr(1, 21);
  done(ledger({"log", "--sure", "th1", "wound", "1020", "corrects=" + key.substr(17)}));
  const std::string correction = ledger.last_line().substr(18, 4);
  std::string text = ledger.record();
  text.replace(text.find("turns = 1020"), 12, "turns = 1030");
  ledger.folder.write("records/TH-01.toml", text + "\"2026");
  const Ran ran = ledger({"show", "th1"});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, "wound to 1200 turns at 41 gf.cm [corrected by " + correction + "]\n"));
  CHECK(has(ran.out, "wound to 1030 turns [edited: not relied on]\n"));
  CHECK(has(ran.out, "a torn end: see `loopledger mend`\n"));
  CHECK(has(ran.err,
            "warning: the record ends in a torn line of 5 bytes; all before it is whole "
            "[record-torn]"));
  CHECK(has(ran.err, "[record-edited]"));
}

TEST_CASE("show --json has the keys of the manual, units in them") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "wound", "1200", "41 gf.cm"}));
  const Ran ran = ledger({"show", "th1", "--json"});
  CHECK(ran.code == 0);
  check_json(ran.out, {{"format", "1"},
                       {"id", "\"TH-01\""},
                       {"check_char", "\"J\""},
                       {"state", "\"broken_in\""},
                       {"torn", "false"},
                       {"planned.limit_g", "1.5"},
                       {"planned.edited", "false"},
                       {"entries[*].kind", "[\"wound\"]"},
                       {"entries[0].turns", "1200"},
                       {"entries[0].torque_mNm", "4.0207265"},
                       {"entries[0].edited", "false"},
                       {"advice.best_turns", "1200"},
                       {"advice.do_not_pass_turns", "number"},
                       {"diagnostics", "[]"}});
}

TEST_CASE("entries are shown even when the figures as planned can't be read") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "wound", "1200"}));
  std::string text = ledger.record();
  text.replace(text.find("aim = "), 6, "aim : ");
  ledger.folder.write("records/TH-01.toml", text);
  const Ran ran = ledger({"show", "th1"});
  CHECK(ran.code == 1);
  CHECK(has(ran.err, "the figures as planned can't be read"));
  CHECK(has(ran.out, "wound to 1200 turns"));
}

TEST_CASE("hostile text in a record does not reach the terminal") {
  const LedgerBench ledger;
  CHECK(ledger({"log", "--sure", "th1", "note", "a\x1b[2Jb\xe2\x80\xae"}).code == 0);
  CHECK(ledger.record().find('\x1b') == std::string::npos);
  const Ran ran = done(ledger({"show", "th1"}));
  CHECK(ran.out.find('\x1b') == std::string::npos);
  CHECK(has(ran.out, "a\\x1b[2Jb\\u202e"));
}

TEST_CASE("show of an unknown id is exit code 4, of a wrong check 1, of no id 1") {
  const LedgerBench ledger;
  CHECK(ledger({"show", "th5"}).code == 4);
  CHECK(ledger({"show", "TH-01-X"}).code == 1);
  CHECK(ledger({"show", "../../etc/passwd"}).code == 1);
  CHECK(run({"show"}).code == 2);
}

TEST_CASE("the loop as it was tied moves the turns to wind to, in proportion") {
  const LedgerBench ledger;
  const auto wind_to = [&] {
    const std::string out = ledger({"show", "th1"}).out;
    return std::stod(out.substr(out.find("wind to ") + 8));
  };
  done(ledger({"log", "--sure", "th1", "tied", "loop=300 mm"}));
  const double at_300 = wind_to();
  done(ledger({"log", "--sure", "th1", "tied", "loop=330 mm"}));
  CHECK(wind_to() / at_300 == doctest::Approx(1.1).epsilon(0.002));
}

TEST_CASE("show says first what to do: the next step of the recipe, then the winding for today") {
  const LedgerBench ledger;
  const auto second_line = [&] {
    const std::string out = ledger({"show", "qx1"}).out;
    const std::size_t at = out.find('\n') + 1;
    return out.substr(at, out.find('\n', at) - at);
  };
  // Planned at 200 mm, tied at 300 mm: five times the loop as it is.
  done(ledger({"log", "--sure", "qx1", "tied", "loop=300 mm", "--at", "2026-04-30 08:00"}));
  CHECK(second_line().starts_with("Next: break-in step 1 of 2: stretch to 1500 mm, hold 5 min"));
  done(ledger({"log", "--sure", "qx1", "break_in", "step=1", "--at", "2026-05-01 09:40"}));
  CHECK(second_line().starts_with("Next: break-in step 2 of 2 (time 1 of 2): wind "));
  CHECK(has(ledger({"show", "qx1"}).out, "rest 1 h\n"));
  CHECK(has(ledger({"show", "qx1"}).out, "\n  rested 20 min\n"));
  done(ledger({"log", "--sure", "qx1", "break_in", "--at", "2026-05-01 09:45"}));
  CHECK(second_line().starts_with("Next: break-in step 2 of 2 (time 2 of 2): wind "));
  CHECK(has(ledger({"show", "qx1"}).out, "\n  rest 45 min more before that step\n"));
  done(ledger(
      {"log", "--sure", "qx1", "break_in", "loop_after=309 mm", "--at", "2026-05-01 09:59"}));
  CHECK(second_line().starts_with("Next: wind to "));
  CHECK(has(ledger({"show", "qx1", "--winder-ratio", "10"}).out, " cranks, do not pass "));
  CHECK(has(ledger({"show", "qx1"}).out, "set +3.0 %\n"));
}

TEST_CASE("a step that only a torque stops says the turns never to pass; its note comes first") {
  const test::TempFolder folder;
  const std::string plan = folder.write(
      "night.toml",
      "format = 1\nbench = { scale_step = \"1 mg\", winder_ratio = 10 }\n[strips.tan]\n"
      "samples = [[\"1 m\", \"2 g\"], [\"1 m\", \"2 g\"], [\"1 m\", \"2 g\"]]\n"
      "[recipes.own]\nsteps = [{ note = \"by hand, slowly\", torque = \"75 %\", hold = \"1 min\" "
      "}]\n"
      "[[motors]]\nid = \"AB\"\nloop = \"300 mm\"\nrecipe = \"own\"\n");
  REQUIRE(test::run({"print", plan}).code == 0);
  const std::string records = folder.path("records");
  done(test::run({"log", "--sure", "ab1", "tied", "loop=300 mm", "--records", records}));
  const Ran ran = test::run({"show", "ab1", "--records", records});
  CHECK(has(ran.out,
            "Next: break-in step 1 of 1: by hand, slowly, wind until 40.9 gf·cm (25.1–66.8), never "
            "past"));
  CHECK(has(folder.read("records/AB-01.toml"), "note = \"by hand, slowly\""));
  CHECK(has(test::run({"show", "ab1", "--json", "--records", records}).out,
            "\"note\": \"by hand, slowly\""));
}

TEST_CASE("tied again after it broke, without a loop, a motor is as planned and not as it was") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "weighed", "washed", "1.497 g"}));
  done(ledger({"log", "--sure", "th1", "tied", "loop=300 mm"}));
  done(ledger({"log", "--sure", "th1", "break_in", "loop_after=309 mm"}));
  CHECK(has(ledger({"show", "th1", "--json"}).out, "\"washed_g\": 1.497"));
  done(ledger({"log", "--sure", "th1", "wound", "1400", "40 gf.cm", "end=broke"}));
  CHECK(has(ledger({"show", "th1"}).out, "309 mm broken in"));
  done(ledger({"log", "--sure", "th1", "tied", "reading=1.5 g"}));
  CHECK(has(ledger({"show", "th1", "--json"}).out, "\"washed_g\": null"));
  const Ran ran = done(ledger({"show", "th1"}));
  CHECK_FALSE(has(ran.out, "309 mm broken in"));
  CHECK(has(ledger({"show", "th1", "--json"}).out, "\"loop_is\": \"planned\""));
}

TEST_CASE("a set far from what was published is told") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "tied", "loop=300 mm"}));
  done(ledger({"log", "--sure", "th1", "break_in", "loop_after=330 mm"}));
  CHECK(has(ledger({"show", "th1"}).out,
            "set +10.0 %: more than published, +8 % at once and +3 % the next day"));
  done(ledger({"log", "--sure", "th2", "tied", "loop=300 mm"}));
  done(ledger({"log", "--sure", "th2", "break_in", "loop_after=294 mm"}));
  CHECK(has(ledger({"show", "th2"}).out, "set -2.0 %: shorter than as tied, measure again"));
}

TEST_CASE("a motor that was wound has left its recipe behind") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "qx1", "tied", "loop=300 mm"}));
  done(ledger({"log", "--sure", "qx1", "wound", "900"}));
  CHECK(has(ledger({"show", "qx1"}).out, "\nNext: wind to "));
}

TEST_CASE("show gives the best winding with its date, windings, rest, set, launch and weather") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "tied", "loop=450 mm", "--at", "2026-04-26 09:00"}));
  done(ledger(
      {"log", "--sure", "th1", "break_in", "loop_after=463.5 mm", "--at", "2026-04-26 10:00"}));
  done(ledger({"log", "--sure", "th1", "wound", "600", "20 gf.cm", "--at", "2026-04-27 09:00"}));
  done(ledger({"log", "--sure", "th1", "wound", "2080", "0.9 ozf.in", "temperature=21 C",
               "backed_off_to=1760", "--sure", "--at", "2026-04-28 09:00"}));
  done(ledger({"log", "--sure", "th1", "flown", "9:20"}));
  const Ran ran = ledger({"show", "th1", "--temperature", "11 C", "--launch", "0.3 ozf.in"});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, "\n  best 2080 turns at 64.8 gf·cm on 2026-04-28, 21 °C\n"));
  CHECK(has(ran.out, "\n  2 windings (1 full), 1 flight, rested 3 days, set +3.0 %\n"));
  CHECK(has(ran.out, "\n  last launch with 1760 turns left in, about 28.7 gf·cm (estimate)\n"));
  CHECK(
      has(ran.out, "launch at 21.6 gf·cm: from 2080 turns at 64.8 gf·cm back off 869 turns, 55 %"));
  CHECK(has(ran.out, "\n  today 11 °C, 21 °C at its best winding: about 8 % less energy"));
  CHECK_FALSE(has(ran.out, "nobody measured"));
  CHECK(has(ledger({"show", "th1", "--temperature", "-5 C"}).out, "cold rubber is stiff"));
  const Ran inch = ledger({"show", "th1", "--temperature", "52 F", "--units", "inch"});
  CHECK(has(inch.out, "\n  today 52 °F, 70 °F at its best winding: about 8 % less energy"));
  const Ran json = ledger({"show", "th1", "--temperature", "11 C", "--json"});
  check_json(json.out, {{"advice.best_date", "\"2026-04-28\""},
                        {"advice.full_windings", "1"},
                        {"advice.energy_change_percent", "number"}});
  CHECK(has(json.out, "\"energy_change_percent\": -8"));
}

TEST_CASE("show says what is left when turns are let out, the reverse of a wanted torque") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "tied", "loop=300 mm"}));
  done(ledger({"log", "--sure", "th1", "wound", "1000", "40 gf.cm"}));
  const Ran ran = ledger({"show", "th1", "--back-off", "100"});
  CHECK(ran.code == 0);
  // A partial winding, 1000 of 1591: after the first drop, of 40 turns, 0.65 of the reading is
  // left; from there it goes down as the default curve over the largest turns does at 0.60 of them.
  CHECK(has(ran.out,
            "back off 100 turns: 900 left at 24.9 gf·cm, 14 % of the energy gone (estimate)"));
  CHECK(has(ran.out, "energy from 1000 turns 12 J; from its largest 1591 it would be "));
  CHECK(has(ledger({"show", "th1", "--launch", "24.9 gf.cm"}).out, "back off 99 turns"));
  CHECK(has(ledger({"show", "th1", "--launch", "55 gf.cm"}).out,
            "launch at 55 gf·cm: not reached, its best winding gave 1000 turns at 40 gf·cm"));
  CHECK(has(ledger({"show", "th1", "--launch", "40 gf.cm"}).out, "no turns to back off"));
  CHECK(has(ledger({"show", "th1", "--back-off", "2000"}).out,
            "backing off 2000 turns leaves nothing of 1000 turns at 40 gf·cm"));
  CHECK(ledger({"show", "th1", "--back-off", "-3"}).code == 1);
  const Ran json = ledger({"show", "th1", "--back-off", "100", "--launch", "24.9 gf.cm", "--json"});
  CHECK(has(json.out, "\"own\": false"));
  CHECK(has(json.out, "\"energy_lost_share\": 0.135"));
}

TEST_CASE("torques logged with a winding make the motor's own curve, and show says so") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "tied", "loop=300 mm", "--at", "2026-04-27 09:00"}));
  done(ledger({"log", "--sure", "th1", "wound", "1000", "40 gf.cm",
               "pairs=950: 30 gf.cm, 900: 25 gf.cm, 800: 17 gf.cm", "--at", "2026-04-28 09:00"}));
  const Ran ran = ledger({"show", "th1", "--launch", "25 gf.cm"});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, "from 1000 turns at 40 gf·cm back off 100 turns"));
  CHECK(has(ran.out, "its own, 4 torques read while unwinding on 2026-04-28\n"));
  // After a later winding without readings of its own those read keep their turns.
  done(ledger({"log", "--sure", "th1", "wound", "1100", "44 gf.cm"}));
  CHECK(has(ledger({"show", "th1", "--launch", "25 gf.cm"}).out,
            "from 1100 turns at 44 gf·cm back off 200 turns"));
  CHECK(has(ledger({"show", "th1", "--json"}).out, "\"own\": true"));
}

TEST_CASE("torques read while winding serve too, with a word that unwinding reads less") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "tied", "loop=300 mm"}));
  done(ledger(
      {"log", "--sure", "th1", "wound", "1000", "40 gf.cm", "pairs=800: 22 gf.cm, 900: 30 gf.cm"}));
  const Ran ran = ledger({"show", "th1", "--launch", "30 gf.cm"});
  CHECK(has(ran.out, "back off 100 turns"));
  CHECK(has(ran.out, "3 torques read while winding"));
  CHECK(has(ran.out, "unwinding reads less"));
}

TEST_CASE("show without torque or temperature in the record says what to log, and what is wrong") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "wound", "900"}));
  const Ran ran = ledger({"show", "th1", "--temperature", "11 C", "--launch", "18 gf.cm"});
  CHECK(has(ran.out, "log a winding with its torque"));
  CHECK(has(ran.out, "no temperature was logged with its best winding"));
  const Ran wrong = ledger({"show", "th1", "--temperature", "11 gf.cm", "--launch", "0 gf.cm"});
  CHECK(wrong.code == 1);
  CHECK(has(wrong.err, "error: --temperature: "));
  CHECK(has(wrong.err, "error: --launch: expected a torque above 0"));
  CHECK(wrong.out.empty());
  const Ran hot = ledger({"show", "th1", "--temperature", "500 C"});
  CHECK(hot.code == 1);
  CHECK(has(hot.err, "-60 degC to 80 degC"));
}

TEST_CASE("a record with many entries still fits a screen; --all shows them") {
  const LedgerBench ledger;
  for (int i = 0; i < 20; ++i) {
    done(ledger({"log", "--sure", "th1", "note", "number " + std::to_string(i)}));
  }
  const Ran ran = done(ledger({"show", "th1"}));
  CHECK(std::count(ran.out.begin(), ran.out.end(), '\n') <= 32);
  CHECK(has(ran.out, "  8 before these: --all\n"));
  CHECK_FALSE(has(ran.out, "number 7\n"));
  CHECK(has(ran.out, "number 8\n"));
  CHECK(has(ledger({"show", "th1", "--all"}).out, "number 0\n"));
}

TEST_CASE("show of a tied motor says what is missing for a launch, a day and backing off") {
  const LedgerBench ledger;
  done(ledger({"log", "--sure", "th1", "tied", "loop=360 mm"}));
  const Ran ran = ledger({"show", "th1", "--temperature", "12 C", "--launch", "18 gf.cm"});
  CHECK(has(ran.out, "launch at 18 gf·cm: log a winding with its torque"));
  CHECK(has(ran.out, "today 12 °C: no winding was logged yet; colder rubber gives"));
  CHECK(has(ledger({"show", "th1", "--back-off", "100"}).out, "log a winding with its torque"));
  const Ran plain = done(ledger({"show", "th1"}));
  CHECK_FALSE(has(plain.out, "launch"));
  CHECK_FALSE(has(plain.out, "today"));
}

TEST_CASE("show --json has what a motor was planned with: for, lot, rule, date, recipe") {
  const LedgerBench ledger;
  const std::string out = ledger({"show", "th1", "--json"}).out;
  check_json(out, {{"planned.owner", "\"ANNA\""},
                   {"planned.for", "\"Heron\""},
                   {"planned.plan_date", "\"2026-02-05\""},
                   {"planned.rule", "\"club\""},
                   {"planned.lot", "\"May\""},
                   {"planned.slit", "false"},
                   {"planned.recipe", "null"}});
  const std::string other = ledger({"show", "qx1", "--json"}).out;
  check_json(other, {{"planned.for", "null"}, {"planned.recipe", "\"two\""}});
}
