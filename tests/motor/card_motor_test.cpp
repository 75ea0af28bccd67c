// SPDX-License-Identifier: MIT
#include "motor/card_motor.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "motor/one_motor.h"
#include "motor/words.h"
#include "support/has.h"

using namespace loopledger;
using namespace loopledger::test;
using doctest::Approx;
using motor::CardMotor;
using motor::Today;

namespace {

CardMotor card_of(Motor& motor, Units units = Units::metric, const Today& today = {}) {
  return motor::card_motor(motor.record(), today, units);
}

bool notes_say(const CardMotor& card, const std::string& part) {
  return std::ranges::any_of(card.notes, [&](const std::string& note) { return has(note, part); });
}

/// Wound to so many turns at 41 gf·cm.
Motor wound_motor(const char* turns) {
  Motor motor;
  motor.log(Kind::wound, {{"turns", turns}, {"torque", "41 gf.cm"}});
  return motor;
}

}  // namespace

TEST_CASE("a card says whose the motor is and what it is made of, and what to do first") {
  Motor motor;
  motor.record().planned.owner = "ANNA";
  motor.record().planned.purpose = "Heron";
  const CardMotor card = card_of(motor);
  CHECK(card.id == MotorId{"AB", 1});
  CHECK(card.owner == "ANNA");
  CHECK(card.purpose == "Heron");
  CHECK(card.state == "planned");
  CHECK(card.made_of == "2 strands of tan, 2.5 mm wide");
  CHECK(card_of(motor, Units::inch).made_of == "2 strands of tan, 0.098 in wide");
  CHECK(card.before == "First: cut it, wash it, let it dry, and log the reading: weighed washed.");
  CHECK(card.mark.empty());
  CHECK(card.last.empty());
  CHECK_FALSE(card.best_turns);
  CHECK_FALSE(card.oil);  // nothing is oiled that is not there yet
  CHECK(card.oil_counts == true);
}

TEST_CASE("a card counts what was done, and tells when last") {
  Motor motor;
  motor.log_on(1, Kind::tied, {{"loop", "282 mm"}});
  CHECK(card_of(motor).before == "First: break it in and log each step: break_in.");
  motor.log_on(2, Kind::break_in, {{"loop_after", "290 mm"}});
  motor.log_on(3, Kind::wound, {{"turns", "500"}, {"torque", "20 gf.cm"}});
  motor.log_on(4, Kind::wound, {{"turns", "1050"}, {"torque", "41 gf.cm"}});
  motor.log_on(5, Kind::flown);
  Today today;
  today.winder_ratio = 15;
  const CardMotor card = card_of(motor, Units::metric, today);
  CHECK(card.state == "flown");
  CHECK(card.loop == Length::mm(290));
  CHECK(card.loop_is == LoopIs::broken_in);
  CHECK(card.best_turns == Turns::of(1050));
  REQUIRE(card.best_torque);
  CHECK(card.best_torque->in_gf_cm() == Approx(41));
  CHECK(card.windings == 2);
  CHECK(card.full_winds == 1);
  CHECK(card.flights == 1);
  CHECK(card.last == "2026-02-05");
  CHECK(card.before.empty());
  CHECK(card.winder_ratio == 15);
  CHECK(card.points.size() == 2);
}

TEST_CASE("without a reading the torque is expected from the section, and the shape is default") {
  Motor motor;
  const CardMotor card = card_of(motor);
  REQUIRE(card.curve);
  CHECK(card.curve_is == "torque curve: the default shape, an estimate");
  CHECK(card.expected_from.starts_with("from its section, largest torque "));
  CHECK(card.expected_from.ends_with("; it reads higher while winding"));
  CHECK(card.expected.low < card.expected.value);
  CHECK(card.expected.value < card.expected.high);
  CHECK(has(card_of(motor, Units::inch).expected_from, " ozf·in ("));
  CHECK(card.points.empty());
}

TEST_CASE(
    "a winding to at least half of \"wind to\" tells the torque there, a lower one does not") {
  Motor near = wound_motor("530");  // of 1054
  const CardMotor told = card_of(near);
  CHECK(told.expected_from == "from 41 gf·cm read at 530 turns");
  CHECK(card_of(near, Units::inch).expected_from == "from 0.569 ozf·in read at 530 turns");
  REQUIRE(told.curve);
  CHECK(told.curve->torque_at(told.wind_to).in_gf_cm() ==
        Approx(told.expected.value.in_gf_cm()).epsilon(0.001));
  Motor far = wound_motor("520");
  CHECK(card_of(far).expected_from.starts_with("from its section"));
}

TEST_CASE("a curve read while winding tells the torque at \"wind to\" if it reaches there") {
  Motor motor;
  motor.log_on(3, Kind::wound,
               {{"turns", "1100"},
                {"torque", "45 gf.cm"},
                {"pairs", "300: 12 gf.cm, 600: 19 gf.cm, 800: 25 gf.cm, 1000: 35 gf.cm"}});
  const CardMotor card = card_of(motor);
  CHECK(card.expected_from == "from what it read while winding");
  CHECK(card.expected.value.in_gf_cm() > 35);
  CHECK(card.expected.value.in_gf_cm() < 45);
  CHECK(card.curve_is.starts_with("torque curve: its own, 5 torques read while winding on 2026"));
  REQUIRE(card.points.size() == 5);
  CHECK(std::ranges::all_of(card.points, [](const motor::CardPoint& p) { return p.of_curve; }));
}

TEST_CASE("only the newest eight windings are drawn") {
  Motor motor;
  for (int i = 0; i < 10; ++i) {
    motor.log(Kind::wound, {{"turns", std::to_string(700 + i)}, {"torque", "30 gf.cm"}});
  }
  const CardMotor card = card_of(motor);
  REQUIRE(card.points.size() == 8);
  CHECK(std::ranges::none_of(
      card.points, [](const motor::CardPoint& p) { return p.at.turns < Turns::of(702); }));
}

TEST_CASE("the last launch: its torque, and what to let out from \"wind to\" for the same") {
  Motor motor;
  motor.log(Kind::wound, {{"turns", "1050"}, {"torque", "41 gf.cm"}, {"backed_off_to", "950"}});
  const CardMotor card = card_of(motor);
  REQUIRE(card.launch);
  CHECK(card.launch->left == Turns::of(950));
  CHECK(card.launch->torque.in_gf_cm() < 41);
  REQUIRE(card.curve);
  CHECK(card.curve->torque_at(card.wind_to - card.launch->let_out).in_gf_cm() ==
        Approx(card.launch->torque.in_gf_cm()).epsilon(0.001));
}

TEST_CASE("a damaged record's card has its mark and why, and no figures to draw a curve from") {
  Motor motor = wound_motor("1000");
  motor.record().planned_edited = true;
  const CardMotor head = card_of(motor);
  CHECK(head.mark == "RECORD DAMAGED");
  CHECK_FALSE(head.curve);
  CHECK(head.points.empty());
  CHECK(head.before.empty());
  CHECK(notes_say(head, motor::kPlannedEdited));
  motor.record().planned_edited = false;
  motor.log(Kind::tied, {{"loop", "260 mm"}});
  motor.last().edited = true;
  CHECK(notes_say(card_of(motor), "A line of its record is damaged or changed by hand"));
}

TEST_CASE("a retired motor stands in the list alone: nothing to wind by") {
  Motor motor = wound_motor("1000");
  motor.log(Kind::retired);
  const CardMotor card = card_of(motor);
  CHECK(card.retired);
  CHECK(card.state == "retired");
  CHECK(card.best_turns == Turns::of(1000));
  CHECK(card.wind_to == Turns{});
  CHECK_FALSE(card.curve);
  CHECK(card.notes.empty());
}

TEST_CASE("what else is to be known: a winding past, a part motor, hooks, how warm the best was") {
  Motor motor;
  motor.log(Kind::wound, {{"turns", "1300"}});
  motor.log(Kind::wound, {{"turns", "1000"}, {"torque", "41 gf.cm"}, {"temperature", "25 degC"}});
  motor.record().planned.part = 0.5;
  motor.record().planned.hooks = Length::mm(260);
  const CardMotor card = card_of(motor);
  CHECK(notes_say(card, "Once wound to 1300 turns, past “do not pass”"));
  CHECK(notes_say(card, "Part motor, 0.5 of the full length"));
  CHECK(notes_say(card, "Hooks 260 mm apart: 22 mm of slack as planned."));
  CHECK(notes_say(card, "Its best winding was at 25 °C; colder rubber returns about 0.8 % less"));
  CHECK(notes_say(card_of(motor, Units::inch), "Its best winding was at 77 °F"));
}

TEST_CASE("oil to rub in again is told once there is a motor, by the plan's lubricant") {
  Motor motor(R"(format = 1
bench = { scale_step = "1 mg" }
lubricants.soap = { uptake = "1.2 %" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
strips.tan = { width = "2.5 mm", samples = [["500 mm", "1.290 g"]] }
[[motors]]
id = "AB"
rule = "club"
mass = "limit"
lubricant = "soap"
)");
  CHECK_FALSE(card_of(motor).oil);
  motor.log(Kind::tied, {{"loop", "280 mm"}});
  CHECK(card_of(motor).oil);
  CHECK(card_of(motor).oil_counts == false);
  motor.record().planned.rule.reset();
  CHECK_FALSE(card_of(motor).oil_counts);
}
