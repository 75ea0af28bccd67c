// SPDX-License-Identifier: MIT
#include "motor/words.h"

#include <doctest/doctest.h>

#include "motor/one_motor.h"
#include "support/has.h"

using namespace loopledger;
using namespace loopledger::test;
using motor::State;
using records::Planned;

namespace {

std::string told(Kind kind, const Fields& fields, Units units = Units::metric) {
  Motor motor;
  motor.log(kind, fields);
  return motor::in_words(motor.last(), units);
}

/// Values that no text was typed for: they are shown in the units asked for.
Entry without_typed(Kind kind, const Fields& fields) {
  Motor motor;
  motor.log(kind, fields);
  motor.last().typed.clear();
  return motor.last();
}

/// Two strands of an invented strip of 2 g/m, weighed in steps of a milligram.
Planned strip() {
  Planned p;
  p.strip = "tan";
  p.strands = 2;
  p.linear_density = {LinearDensity::g_per_m(2), LinearDensity::g_per_m(0.002)};
  p.scale_step = Mass::mg(1);
  return p;
}

calc::Judgement judged(Stage stage, calc::Verdict verdict) {
  calc::Judgement j;
  j.stage = stage;
  j.verdict = verdict;
  j.over = Mass::mg(14);
  j.trim = Length::mm(7);
  j.light = Mass::mg(3);
  return j;
}

}  // namespace

TEST_CASE("whose a motor is: what is not known is left out, what is harmful to a terminal too") {
  Record record;
  record.id = {"TH", 1};
  CHECK(motor::whose(record) == "TH-01-J");
  record.planned.owner = "ANNA";
  CHECK(motor::whose(record) == "TH-01-J: ANNA");
  record.planned.purpose = "Heron";
  CHECK(motor::whose(record) == "TH-01-J: ANNA, for Heron");
  record.planned.owner.clear();
  CHECK(motor::whose(record) == "TH-01-J: for Heron");
  record.planned.purpose = "a\x1b[31mb";
  CHECK(motor::whose(record).find('\x1b') == std::string::npos);
}

TEST_CASE("an entry of each kind in words, with nothing but its kind where that is all") {
  CHECK(told(Kind::planned, {}) == "planned");
  CHECK(told(Kind::weighed, {}) == "weighed ");
  CHECK(told(Kind::tied, {}) == "tied");
  CHECK(told(Kind::break_in, {}) == "broken in");
  CHECK(told(Kind::wound, {}) == "wound");
  CHECK(told(Kind::broke, {}) == "broke");
  CHECK(told(Kind::flown, {}) == "flown");
  CHECK(told(Kind::labelled, {{"tag", "L1 TH-01-J"}}) == "labelled L1 TH-01-J");
  CHECK(told(Kind::piece, {{"tag", "b"}}) == "piece b");
  CHECK(told(Kind::note, {{"text", "left at the hall"}}) == "left at the hall");
  CHECK(told(Kind::retired, {}) == "retired");
  CHECK(told(Kind::retired, {{"why", "nick"}}) == "retired: nick");
}

TEST_CASE("an entry with everything on it says it as it was typed, whatever the units asked for") {
  for (const Units units : {Units::metric, Units::inch}) {
    CHECK(told(Kind::weighed, {{"stage", "as cut"}, {"reading", "1.561 g"}}, units) ==
          "weighed as cut: 1.561 g");
    CHECK(told(Kind::tied, {{"loop", "28.3 cm"}, {"reading", "1.497 g"}}, units) ==
          "tied, loop 28.3 cm, reads 1.497 g");
    CHECK(told(Kind::break_in,
               {{"step", "2"},
                {"turns", "700"},
                {"torque", "0.5 ozf.in"},
                {"loop_before", "283 mm"},
                {"loop_after", "11.5 in"},
                {"temperature", "21 degC"}},
               units) ==
          "broken in, step 2, to 700 turns at 0.5 ozf.in, loop before 283 mm, loop after 11.5 in, "
          "21 degC");
    CHECK(told(Kind::wound,
               {{"turns", "1020"},
                {"torque", "41 gf.cm"},
                {"pairs", "800: 20 gf.cm, 1000: 40 gf.cm"},
                {"end", "solid"},
                {"backed_off_to", "950"},
                {"temperature", "70 degF"}},
               units) ==
          "wound to 1020 turns at 41 gf.cm, felt solid, backed off to 950 turns, torque read at 2 "
          "points, 70 degF");
    CHECK(told(Kind::broke, {{"turns", "1100"}, {"torque", "52 gf.cm"}, {"where", "middle"}},
               units) == "broke at 1100 turns at 52 gf.cm, in the middle");
    CHECK(told(Kind::flown, {{"time", "7:31"}, {"turns_left", "120"}, {"temperature", "21 degC"}},
               units) == "flown 7 min 31 s, 120 turns left, 21 degC");
  }
}

TEST_CASE("a quantity that nothing was typed for is shown in the units asked for") {
  const Entry broken_in =
      without_typed(Kind::break_in,
                    {{"torque", "44 gf.cm"}, {"loop_after", "303 mm"}, {"temperature", "21 degC"}});
  CHECK(motor::in_words(broken_in, Units::metric) ==
        "broken in, at 44 gf·cm, loop after 303 mm, 21 degC");
  CHECK(motor::in_words(broken_in, Units::inch) ==
        "broken in, at 0.611 ozf·in, loop after 11.93 in, 21 degC");
}

TEST_CASE("how a winding ended and where a motor broke") {
  CHECK(told(Kind::wound, {{"turns", "900"}, {"end", "stopped"}}) == "wound to 900 turns, stopped");
  CHECK(told(Kind::wound, {{"turns", "900"}, {"end", "broke"}}) == "wound to 900 turns, broke");
  CHECK(told(Kind::broke, {{"where", "knot"}}) == "broke, at the knot");
  CHECK(told(Kind::broke, {{"where", "hook"}}) == "broke, at the hook");
}

TEST_CASE("a note and fields of a newer version stand behind what any kind says") {
  CHECK(told(Kind::wound, {{"turns", "900"}, {"note", "windy"}}) == "wound to 900 turns: windy");
  Entry entry;
  entry.kind = Kind::other;
  entry.kind_text = "washed_again";
  entry.unknown = {{"soap", "\"soft\""}, {"times", "2"}};
  CHECK(motor::in_words(entry, Units::metric) == "washed_again, soap = \"soft\", times = 2");
  entry.unknown = {{"soap", "\x07"}};
  CHECK(motor::in_words(entry, Units::metric).find('\x07') == std::string::npos);
}

TEST_CASE("stages and states as they are spoken of") {
  CHECK(motor::spoken(Stage::as_cut) == "as cut");
  CHECK(motor::spoken(Stage::washed) == "washed");
  CHECK(motor::spoken(Stage::tied) == "tied");
  CHECK(motor::spoken(Stage::finished) == "finished");
  CHECK(motor::spoken(State::planned) == "planned");
  CHECK(motor::spoken(State::broken_in) == "broken in");
  CHECK(motor::spoken(State::retired) == "retired");
}

TEST_CASE("tails are on the scale when it is washed, if there are any") {
  Planned p = strip();
  CHECK(motor::with_tails(Stage::washed, p).empty());
  p.tails = Length::mm(20);
  CHECK(motor::with_tails(Stage::washed, p) == ", tails on");
  CHECK(motor::with_tails(Stage::as_cut, p).empty());
  CHECK(motor::with_tails(Stage::tied, p).empty());
}

TEST_CASE("a verdict in short, on the scale's step and in the units asked for") {
  Planned p = strip();
  const calc::Judgement over = judged(Stage::washed, calc::Verdict::over);
  CHECK(motor::short_verdict(p, over, Units::metric) ==
        "14 mg over its window: snip 7 mm of strip");
  CHECK(motor::short_verdict(p, over, Units::inch) ==
        "14 mg over its window: snip 0.28 in of strip");
  CHECK(motor::short_verdict(p, judged(Stage::washed, calc::Verdict::light), Units::metric) ==
        "3 mg under its window");
  CHECK(motor::short_verdict(p, judged(Stage::tied, calc::Verdict::ok), Units::metric) ==
        "within its window");
  CHECK(motor::short_verdict(p, judged(Stage::as_cut, calc::Verdict::ok), Units::metric) ==
        "long enough");
  p.scale_step = Mass::mg(0.1);
  CHECK(motor::short_verdict(p, judged(Stage::washed, calc::Verdict::light), Units::metric) ==
        "3.0 mg under its window");
}

TEST_CASE("the whole verdict tells how the motor stands to the limit, never as certain") {
  const Planned p = strip();
  calc::Judgement j = judged(Stage::washed, calc::Verdict::ok);
  CHECK(motor::verdict_text(p, j, Units::metric) == "within its window");  // no rule, no limit
  j.counted.mass = Mass::g(1.497);
  j.margin = Mass::mg(3);
  j.within = Share::percent(97.25);
  CHECK(motor::verdict_text(p, j, Units::metric) ==
        "within its window; counted 1.497 g, 3 mg under the limit: 97.2 % likely within it");
  j.within = Share::percent(100);
  CHECK(has(motor::verdict_text(p, j, Units::metric), ": 99.9 % likely within it"));
  j.margin = Mass::mg(-12);
  j.within = Share::percent(0);
  j.verdict = calc::Verdict::over;
  CHECK(motor::verdict_text(p, j, Units::metric) ==
        "14 mg over its window: snip 7 mm of strip; counted 1.497 g, 12 mg over the limit: 0.1 % "
        "likely within it");
  j.stage = Stage::as_cut;
  CHECK(motor::verdict_text(p, j, Units::metric) == "14 mg over its window: snip 7 mm of strip");
}

TEST_CASE("tied minus washed: agrees, or the likeliest reason why not") {
  calc::TyingCheck check;
  check.difference = Mass::mg(12);
  check.expected = Mass::mg(12);
  CHECK(motor::tying_text(check, Mass::mg(1)) ==
        "tied minus washed 12 mg, rings and glue 12 mg: agrees");
  check.agrees = false;
  check.difference = Mass::mg(6);
  CHECK(motor::tying_text(check, Mass::mg(1)) ==
        "tied minus washed 6 mg, rings and glue 12 mg: does not agree, weigh again");
  check.rings_missing = 1;
  CHECK(has(motor::tying_text(check, Mass::mg(1)), "12 mg: 1 ring forgotten?"));
  check.rings_missing = 2;
  CHECK(has(motor::tying_text(check, Mass::mg(1)), "12 mg: 2 rings forgotten?"));
  check.rings_missing = 0;
  check.tails = Mass::mg(40);
  check.tails_still_on = true;
  CHECK(motor::tying_text(check, Mass::mg(1)) ==
        "tied minus washed without tails 6 mg, rings and glue 12 mg: tails still on?");
}

TEST_CASE("what a motor is made of") {
  Planned p = strip();
  CHECK(motor::strip_words(p, Units::metric) == "2 strands of tan");
  p.lot = "May";
  p.width = Length::mm(2.4);
  CHECK(motor::strip_words(p, Units::metric) == "2 strands of tan, lot May, 2.4 mm wide");
  CHECK(motor::strip_words(p, Units::inch) == "2 strands of tan, lot May, 0.094 in wide");
  p.slit = true;
  CHECK(has(motor::strip_words(p, Units::metric), "2.4 mm wide (slit)"));
}

TEST_CASE("a part motor and the room between the hooks, only where they are known") {
  Planned p = strip();
  p.loop = Length::mm(150);
  CHECK(motor::part_and_hooks(p, Units::metric).empty());
  p.part = 0.5;
  CHECK(motor::part_and_hooks(p, Units::metric) ==
        std::vector<std::string>{"part motor, 0.5 of the full length; a full motor takes 2 times "
                                 "the turns at the same torque"});
  p.ballast = Mass::g(0.612);
  CHECK(has(motor::part_and_hooks(p, Units::metric).front(),
            "of the full length: 0.612 g less than the full motor; a full motor"));
  p.spacer = Length::mm(120);
  p.hooks = Length::mm(260);
  const auto metric = motor::part_and_hooks(p, Units::metric);
  REQUIRE(metric.size() == 2);
  CHECK(has(metric[0], "of the full length: spacer 120 mm of 0.612 g; a full motor"));
  CHECK(metric[1] == "hooks 260 mm apart: 10 mm of slack as planned");
  const auto inch = motor::part_and_hooks(p, Units::inch);
  REQUIRE(inch.size() == 2);
  CHECK(has(inch[0], "spacer 4.72 in of"));
  CHECK(inch[1] == "hooks 10.24 in apart: 0.39 in of slack as planned");
}
