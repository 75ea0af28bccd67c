// SPDX-License-Identifier: MIT
//
// What a motor is to do next and what is told under it; the launch: advice_launch_test.cpp.
#include "motor/advice.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "motor/motor_label.h"
#include "motor/one_motor.h"
#include "support/has.h"

using namespace loopledger;
using namespace loopledger::test;
using motor::Today;

namespace {

/// The same night with a recipe, on a winder of 10:1.
constexpr std::string_view kRecipeNight = R"(format = 1
bench = { scale_step = "1 mg", winder_ratio = 10 }
recipes.two = { steps = [{ stretch = 5.0, hold = "5 min", note = "slowly" }, { turns = "50 %", torque = "75 %", hold = "2 min", rest = "1 h", repeat = 2 }] }
rules.club = { limit = "1.5 g", counts = ["rubber", "lubricant"] }
strips.tan = { width = "2.5 mm", samples = [["500 mm", "1.290 g"]] }
[[motors]]
id = "AB"
rule = "club"
mass = "limit"
recipe = "two"
)";

std::string next(Motor& motor, const Today& today = {}, Units units = Units::metric) {
  return motor::next_step(motor.record(), motor.now(), today, units);
}

std::vector<std::string> told(Motor& motor, const Today& today = {}, Units units = Units::metric) {
  return motor::today_lines(motor.record(), motor.now(), today, units);
}

bool says(const std::vector<std::string>& lines, const std::string& part) {
  return std::ranges::any_of(lines, [&](const std::string& line) { return has(line, part); });
}

Today on_day(int day) {
  Today today;
  today.now = midnight_utc({2026, 2, day});
  return today;
}

Today at_degrees(double degrees) {
  Today today;
  today.temperature = Temperature::deg_c(degrees);
  return today;
}

}  // namespace

TEST_CASE("from cutting to the last: what to do next, state by state") {
  Motor motor;
  CHECK(next(motor) == "cut it, wash it, let it dry, and log the reading: weighed washed");
  motor.log(Kind::weighed, {{"stage", "as_cut"}, {"reading", "1.6 g"}});
  CHECK(next(motor) == "cut it, wash it, let it dry, and log the reading: weighed washed");
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.520 g"}});
  CHECK(next(motor) == "it is over its window: trim it and weigh it again");
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.490 g"}});
  CHECK(next(motor) == "tie it and log the loop: tied");
  motor.log(Kind::tied, {{"loop", "281 mm"}});
  CHECK(next(motor) == "break it in and log each step: break_in");
  motor.log(Kind::wound, {{"turns", "900"}});
  const Now now = motor.now();
  CHECK(next(motor) == "wind to " + std::to_string(static_cast<int>(now.wind_to.count())) +
                           " turns, do not pass " +
                           std::to_string(static_cast<int>(now.do_not_pass.count())));
  motor.log(Kind::flown);
  CHECK(next(motor).starts_with("wind to "));
  motor.log(Kind::retired);
  CHECK(next(motor) == "nothing: it is retired");
}

TEST_CASE("on a geared winder turns to wind to are told in cranks too, and never as the same") {
  Motor motor;
  motor.log(Kind::wound, {{"turns", "900"}});  // winds to 1054, not past 1126
  Today today;
  today.winder_ratio = 10;
  CHECK(next(motor, today) ==
        "wind to 1054 turns = 105 cranks, do not pass 1126 = 112 cranks (winder 10:1)");
  today.winder_ratio = 200;
  CHECK(next(motor, today) ==
        "wind to 1054 turns = 4 cranks, do not pass 1126 = 5 cranks (winder 200:1)");
  CHECK(motor::turns_and_cranks(Turns::of(1187.9), 10) == "1187 turns = 118 cranks");
  CHECK(motor::turns_and_cranks(Turns::of(1187.9), 1) == "1187 turns");
}

TEST_CASE("step by step through a recipe, each for the loop as it is") {
  Motor motor(kRecipeNight);
  motor.log(Kind::tied, {{"loop", "282 mm"}});
  CHECK(next(motor) == "break-in step 1 of 2: slowly, stretch to 1410 mm, hold 5 min");
  CHECK(next(motor, {}, Units::inch) ==
        "break-in step 1 of 2: slowly, stretch to 55.51 in, hold 5 min");
  motor.log(Kind::break_in, {{"step", "1"}});
  CHECK(next(motor).starts_with("break-in step 2 of 2 (time 1 of 2): wind "));
  Today today;
  today.winder_ratio = 10;
  CHECK(has(next(motor, today), " turns = 65 cranks or stop at "));
  CHECK(next(motor).ends_with("), hold 2 min, rest 1 h"));
  CHECK(has(next(motor), " gf·cm ("));
  CHECK(has(next(motor, {}, Units::inch), " ozf·in ("));
  motor.log(Kind::break_in, {{"step", "2"}});
  CHECK(next(motor).starts_with("break-in step 2 of 2 (time 2 of 2): wind "));
  motor.log(Kind::break_in, {{"step", "2"}});
  CHECK(next(motor).starts_with("wind to "));
}

TEST_CASE("what is left of a step's rest is told, but less than a minute of it is nothing") {
  Motor motor(kRecipeNight);
  motor.log(Kind::tied);
  motor.log(Kind::break_in, {{"step", "1"}});
  motor.log_on(9, Kind::break_in, {{"step", "2"}});
  Today today = on_day(9);
  today.now->seconds += 20 * 60;
  CHECK(says(told(motor, today), "rest 40 min more before that step"));
  today.now->seconds += 39 * 60 + 30;
  CHECK_FALSE(says(told(motor, today), "more before that step"));
}

TEST_CASE("a motor that may have broken is looked at first, whatever its state") {
  Motor motor;
  motor.log(Kind::wound, {{"turns", "900"}});
  motor.log(Kind::broke);
  motor.last().edited = true;
  CHECK(next(motor) ==
        "look at it first: a line that can't be relied on says that it broke or was retired");
  CHECK(motor::mark_words(motor.now()) == "MAY HAVE BROKEN");
}

TEST_CASE(
    "with a damaged record nothing is wound: it is mended first, until then as its label says") {
  Motor motor;
  motor.log(Kind::wound, {{"turns", "900"}});
  motor.record().lost = {40};
  CHECK(next(motor).starts_with("mend the record first"));
  CHECK(says(motor::mark_lines(motor.now(), Units::metric),
             "line 40 is damaged and no entry any more: what it said is lost"));
  CHECK_FALSE(motor::motor_label(motor.record(), motor.now()).turns);
  motor.record().lost.clear();
  motor.record().planned_edited = true;
  CHECK(next(motor).starts_with("mend the record first"));
}

TEST_CASE("a few words say that a record is damaged; none say that all is well") {
  Motor motor;
  CHECK(motor::mark_words(motor.now()).empty());
  motor.record().planned_edited = true;
  CHECK(motor::mark_words(motor.now()) == "RECORD DAMAGED");
  CHECK(motor::mark_lines(motor.now(), Units::metric).empty());  // said before all else
}

TEST_CASE("a torn end and a line without a sum are told, each in a line") {
  Motor motor;
  CHECK(motor::mark_lines(motor.now(), Units::metric).empty());
  motor.log(Kind::tied, {{"loop", "260 mm"}});
  motor.last().edited = true;
  motor.last().line = 31;
  motor.record().torn = true;
  const auto lines = motor::mark_lines(motor.now(), Units::metric);
  CHECK(says(lines, "the record ends in a torn line: what it said is lost"));
  CHECK(says(lines, "line 31 is changed by hand or damaged and not relied on: tied, loop 260 mm"));
  CHECK(lines.size() == 2);
}

TEST_CASE("of two corrections the one that counts is named, with when each was made") {
  Motor motor;
  const std::string first = motor.log_on(3, Kind::wound, {{"turns", "980"}});
  motor.log_on(4, Kind::wound, {{"turns", "950"}, {"corrects", first}});
  motor.log_on(5, Kind::wound, {{"turns", "900"}, {"corrects", first}});
  CHECK(motor::mark_lines(motor.now(), Units::metric) ==
        std::vector<std::string>{
            "corrected twice: \"wound to 900 turns\" of 2026-02-05 00:00 counts, \"wound to 950 "
            "turns\" of 2026-02-04 00:00 does not"});
}

TEST_CASE("an entry that was merged in behind a knot is told with both times") {
  Motor motor;
  motor.log_on(1, Kind::tied, {{"loop", "283 mm"}});
  motor.log_on(10, Kind::broke);
  motor.log_on(12, Kind::tied, {{"loop", "200 mm"}});
  motor.log_on(3, Kind::wound, {{"turns", "1050"}});
  CHECK(motor::mark_lines(motor.now(), Units::metric) ==
        std::vector<std::string>{"\"wound to 1050 turns\" of 2026-02-03 00:00 lies before "
                                 "\"broke\" of 2026-02-10 00:00, though its line stands behind "
                                 "it"});
}

TEST_CASE("a winding past \"do not pass\" is told and nothing goes by it") {
  Motor motor;
  motor.log_on(2, Kind::wound, {{"turns", "1300"}});
  CHECK(motor::mark_lines(motor.now(), Units::metric) ==
        std::vector<std::string>{"\"wound to 1300 turns\" of 2026-02-02 00:00 is past \"do not "
                                 "pass\" 1126: a slip of the pen or a lucky escape, nothing goes "
                                 "by it"});
  CHECK_FALSE(says(told(motor), "best "));
}

TEST_CASE("a loop longer than its mass allows: what turns go by, in the units asked for") {
  Motor motor;
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.260 g"}});
  motor.log(Kind::tied, {{"loop", "282 mm"}});
  REQUIRE(motor.now().loop_held);
  const auto metric = motor::mark_lines(motor.now(), Units::metric);
  REQUIRE(metric.size() == 1);
  CHECK(metric[0].starts_with("a loop of 282 mm is longer than its mass allows: turns go by "));
  CHECK(metric[0].ends_with(" mm; measure and weigh again"));
  CHECK(motor::mark_lines(motor.now(), Units::inch)[0].starts_with("a loop of 11.10 in is"));
}

TEST_CASE("a fresh motor has nothing to tell of its days") {
  Motor motor;
  CHECK(told(motor, on_day(20)).empty());
}

TEST_CASE("the best winding with its torque, day and warmth, and the most without a torque") {
  Motor motor;
  motor.log_on(3, Kind::wound,
               {{"turns", "900"}, {"torque", "41 gf.cm"}, {"temperature", "21 degC"}});
  CHECK(told(motor)[0] == "best 900 turns at 41 gf·cm on 2026-02-03, 21 °C");
  CHECK(told(motor, {}, Units::inch)[0] == "best 900 turns at 0.569 ozf·in on 2026-02-03, 70 °F");
  motor.log_on(4, Kind::wound, {{"turns", "950"}});
  CHECK(told(motor)[0] ==
        "best 900 turns at 41 gf·cm on 2026-02-03, 21 °C; 950 turns without a torque");
}

TEST_CASE("windings, flights, rest and set stand in one line") {
  Motor motor;
  motor.log_on(1, Kind::tied, {{"loop", "282 mm"}});
  motor.log_on(2, Kind::break_in, {{"loop_after", "290 mm"}});
  motor.log_on(3, Kind::wound, {{"turns", "500"}});
  CHECK(says(told(motor), "1 winding (0 full), set +2.8 %"));
  motor.log_on(4, Kind::wound, {{"turns", "1050"}});
  motor.log_on(4, Kind::flown);
  CHECK(says(told(motor, on_day(20)), "2 windings (1 full), 1 flight, rested 16 days, set +2.8 %"));
  Today soon = on_day(4);
  CHECK(says(told(motor, soon), "1 flight, wound just now, set"));
  soon.now->seconds += 26 * 3600;
  CHECK(says(told(motor, soon), "1 flight, rested 26 h, set"));
  CHECK(says(told(motor, on_day(3)), "1 flight, set"));  // the clock says earlier than the entry
  CHECK_FALSE(motor::rested(motor.now(), on_day(3)));
  CHECK_FALSE(motor::rested(motor.now(), Today{}));
}

TEST_CASE("a set that shrank, that is none and that is more than was published") {
  const auto set = [](const char* after) {
    Motor motor;
    motor.log(Kind::tied, {{"loop", "280 mm"}});
    motor.log(Kind::break_in, {{"loop_after", after}});
    return motor::set_words(motor.now());
  };
  CHECK(set("280 mm") == "set +0.0 %");
  CHECK(set("287 mm") == "set +2.5 %");
  CHECK(set("277.2 mm") == "set -1.0 %: shorter than as tied, measure again");
  CHECK(set("305.2 mm") == "set +9.0 %: more than published, +8 % at once and +3 % the next day");
  Motor not_tied;
  not_tied.log(Kind::break_in, {{"loop_after", "270 mm"}});
  CHECK(motor::set_words(not_tied.now()).ends_with("shorter than as planned, measure again"));
}

TEST_CASE("the day's warmth against that of the best winding") {
  Motor motor;
  CHECK(says(told(motor, at_degrees(15)),
             "today 15 °C: no winding was logged yet; colder rubber gives 0.8 % less a °C"));
  motor.log(Kind::wound, {{"turns", "900"}});
  CHECK(says(told(motor, at_degrees(15)),
             "today 15 °C: no temperature was logged with its best winding; colder rubber"));
  motor.log(Kind::wound, {{"turns", "950"}, {"temperature", "25 degC"}});
  CHECK(says(told(motor, at_degrees(15)),
             "today 15 °C, 25 °C at its best winding: about 8 % less energy (estimate)"));
  Today cold = at_degrees(15);
  CHECK(says(told(motor, cold, Units::inch), "today 59 °F, 77 °F at its best winding: about 8 %"));
  CHECK(says(told(motor, at_degrees(30)), "about 4 % more energy (estimate)"));
  CHECK(says(told(motor, at_degrees(25.2)), "today 25 °C: as warm as at its best winding"));
  CHECK(says(told(motor, at_degrees(2)), "cold rubber is stiff, wind less and slowly)"));
  CHECK(says(told(motor, at_degrees(48)), "nobody measured: feel for it as you wind)"));
}

TEST_CASE("a retired motor is told its past, and nothing of a launch or of the day") {
  Motor motor;
  motor.log(Kind::wound, {{"turns", "900"}, {"torque", "41 gf.cm"}});
  motor.log(Kind::retired);
  Today today = at_degrees(15);
  today.launch = Torque::gf_cm(20);
  const auto lines = told(motor, today);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].starts_with("best 900 turns"));
  CHECK(lines[1] == "1 winding (0 full)");
}
