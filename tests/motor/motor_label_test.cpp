// SPDX-License-Identifier: MIT
#include "motor/motor_label.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "motor/one_motor.h"
#include "support/has.h"
#include "tag/id.h"

using namespace loopledger;
using namespace loopledger::test;
using tag::TagState;

namespace {

motor::LabelFigures label_of(Motor& motor) {
  return motor::motor_label(motor.record(), motor.now());
}

bool is_stale(Motor& motor) { return motor::label_is_stale(motor.record(), motor.now()); }

/// As `label` and `print` do it: what the code says in full goes into the record.
void print_label(Motor& motor) {
  motor.log(Kind::labelled, {{"tag", motor::label_tag(motor.record(), motor.now())}});
}

/// Tied, broken in and wound to 1000 turns at 41 gf·cm, on the first three days of February.
Motor made_motor() {
  Motor motor;
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.490 g"}});
  motor.log(Kind::tied, {{"loop", "282 mm"}});
  motor.log(Kind::break_in, {{"loop_after", "290 mm"}});
  motor.log(Kind::wound, {{"turns", "1000"}, {"torque", "41 gf.cm"}});
  return motor;
}

}  // namespace

TEST_CASE("before break-in a slip: an estimate for the loop as it is, blanks for what is read") {
  Motor motor;
  const motor::LabelFigures fresh = label_of(motor);
  CHECK(fresh.state == TagState::est);
  CHECK_FALSE(fresh.turns);
  CHECK_FALSE(fresh.torque);
  CHECK_FALSE(fresh.mass);
  CHECK(fresh.low);
  CHECK(fresh.turns_estimate == Turns::of(1054));
  CHECK(fresh.loop_is == LoopIs::planned);
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.490 g"}});
  motor.log(Kind::tied, {{"loop", "281 mm"}});
  const motor::LabelFigures tied = label_of(motor);
  CHECK(tied.state == TagState::est);
  CHECK(tied.mass == Mass::g(1.490));
  CHECK(tied.loop == Length::mm(281));
  CHECK(tied.loop_is == LoopIs::tied);
  CHECK_FALSE(tied.doubtful);
  CHECK(tied.turns_estimate < fresh.turns_estimate);
  CHECK(tied.tag.turns == tied.turns_estimate);
}

TEST_CASE("after break-in the bag's label: turns to wind to, then the best with its torque") {
  Motor motor;
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.490 g"}});
  motor.log(Kind::tied, {{"loop", "282 mm"}});
  motor.log(Kind::break_in, {{"loop_after", "290 mm"}});
  const motor::LabelFigures made = label_of(motor);
  CHECK(made.state == TagState::made);
  CHECK(made.turns == Turns::of(std::floor(motor.now().wind_to.count())));
  CHECK_FALSE(made.turns_are_best);
  CHECK(made.loop == Length::mm(290));
  CHECK(made.loop_is == LoopIs::broken_in);
  CHECK(made.date == Date{2026, 2, 3});
  motor.log(Kind::wound, {{"turns", "1000"}, {"torque", "41 gf.cm"}});
  motor.log(Kind::note, {{"text", "no figure"}});
  const motor::LabelFigures best = label_of(motor);
  CHECK(best.turns == Turns::of(1000));
  CHECK(best.turns_are_best);
  REQUIRE(best.torque);
  CHECK(best.torque->in_gf_cm() == doctest::Approx(41));
  CHECK(best.date == Date{2026, 2, 4});  // of the last entry that changed a figure
  CHECK(motor::label_tag(motor.record(), motor.now()) ==
        tag::with_check({"AB", 1}) + " MADE 1000T 41GFCM 1.490G 290MM L1 260204");
}

TEST_CASE("figures that are not to be relied on: CHECK, nothing to wind by, an id for a code") {
  for (const bool over : {false, true}) {
    Motor motor = made_motor();
    if (over) {
      motor.log(Kind::broke);
      motor.last().edited = true;
    } else {
      motor.record().planned_edited = true;
    }
    const motor::LabelFigures label = label_of(motor);
    CHECK(label.doubtful);
    CHECK_FALSE(label.turns);
    CHECK_FALSE(label.torque);
    CHECK_FALSE(label.turns_estimate);
    CHECK_FALSE(label.turns_max);
    CHECK(label.tag.id == MotorId{"AB", 1});
    CHECK_FALSE(label.tag.state);
    CHECK_FALSE(has(motor::label_tag(motor.record(), motor.now()), "MADE"));
  }
}

TEST_CASE("with a new knot what the scale may read was of the loop that was planned") {
  Motor motor = made_motor();
  motor.log(Kind::tied, {{"loop", "200 mm"}});
  const motor::LabelFigures label = label_of(motor);
  CHECK(label.state == TagState::est);
  CHECK_FALSE(label.low);
  CHECK_FALSE(label.high);
  CHECK(label.loop == Length::mm(200));
}

TEST_CASE("the build night's slip is out of date when its estimate is off by more than 2 %") {
  Motor motor;
  CHECK_FALSE(is_stale(motor));
  const double planned = motor.now().wind_to.count();
  motor.log(Kind::tied, {{"loop", "280 mm"}});
  REQUIRE(motor.now().wind_to.count() < planned);
  REQUIRE(motor.now().wind_to.count() > 0.981 * planned);
  CHECK_FALSE(is_stale(motor));
  motor.log(Kind::tied, {{"loop", "275 mm"}});
  REQUIRE(motor.now().wind_to.count() < 0.979 * planned);
  CHECK(is_stale(motor));
}

TEST_CASE("a slip's tag: exactly 2 % off is not out of date, a turn more is") {
  Motor motor;
  tag::TagFigures slip = label_of(motor).tag;
  REQUIRE(slip.state == TagState::est);
  const auto stale = [&](double turns) {
    slip.turns = Turns::of(turns);
    return motor::tag_is_stale(slip, motor.record(), motor.now());
  };
  // The slip says this much, the motor is to be wound to 1054: 1 % and 3 % either way.
  CHECK_FALSE(stale(1054));
  CHECK_FALSE(stale(1065));
  CHECK_FALSE(stale(1043));
  CHECK_FALSE(stale(1075));  // 1.99 %
  CHECK(stale(1076));        // 2.09 %
  CHECK_FALSE(stale(1033));  // 1.99 %
  CHECK(stale(1032));        // 2.09 %
  slip.mass = Mass::g(1.2);  // read by a pen's hand: not compared
  CHECK_FALSE(stale(1054));
}

TEST_CASE("a printed bag's label is out of date as soon as an entry changes a figure of it") {
  Motor motor = made_motor();
  CHECK(is_stale(motor));  // the build night's slip says EST
  print_label(motor);
  CHECK_FALSE(is_stale(motor));
  motor.log(Kind::note, {{"text", "no figure"}});
  motor.log(Kind::flown);
  motor.log(Kind::wound, {{"turns", "800"}});
  CHECK_FALSE(is_stale(motor));  // its date alone would change
  motor.log(Kind::wound, {{"turns", "1010"}, {"torque", "43 gf.cm"}});
  CHECK(is_stale(motor));
  print_label(motor);
  CHECK_FALSE(is_stale(motor));
  motor.log(Kind::break_in, {{"loop_after", "293 mm"}});
  CHECK(is_stale(motor));
}

TEST_CASE("a new knot makes any label out of date until a new one is printed") {
  Motor motor = made_motor();
  print_label(motor);
  REQUIRE_FALSE(is_stale(motor));
  motor.log(Kind::broke);
  CHECK_FALSE(is_stale(motor));  // over: it needs none
  motor.log(Kind::tied, {{"loop", "283 mm"}});
  CHECK(is_stale(motor));
  print_label(motor);
  CHECK_FALSE(is_stale(motor));
}

TEST_CASE("a retired motor needs no label, and none that is on its bag is out of date") {
  Motor motor = made_motor();
  const tag::TagFigures on_bag = label_of(motor).tag;
  motor.log(Kind::wound, {{"turns", "1010"}, {"torque", "43 gf.cm"}});
  REQUIRE(motor::tag_is_stale(on_bag, motor.record(), motor.now()));
  motor.log(Kind::retired);
  CHECK_FALSE(motor::tag_is_stale(on_bag, motor.record(), motor.now()));
  CHECK_FALSE(is_stale(motor));
}

TEST_CASE("a label that said CHECK is out of date once its record is right again") {
  Motor motor = made_motor();
  motor.record().planned_edited = true;
  print_label(motor);
  CHECK_FALSE(is_stale(motor));
  motor.record().planned_edited = false;
  CHECK(is_stale(motor));
}

TEST_CASE("of a tag on a bag only what it says is compared, its date not") {
  Motor motor = made_motor();
  const auto stale = [&](const tag::TagFigures& on_bag) {
    return motor::tag_is_stale(on_bag, motor.record(), motor.now());
  };
  const tag::TagFigures now = label_of(motor).tag;
  CHECK_FALSE(stale(now));
  tag::TagFigures tag = now;
  tag.date = Date{2025, 1, 1};
  CHECK_FALSE(stale(tag));
  tag = now;
  tag.torque = Torque::gf_cm(45);
  CHECK(stale(tag));
  tag = now;
  tag.mass.reset();
  CHECK(stale(tag));
  tag = now;
  tag.state = TagState::est;
  CHECK(stale(tag));
  tag::TagFigures short_one;  // as short tags are: turns and torque alone
  short_one.id = now.id;
  short_one.turns = now.turns;
  short_one.torque = now.torque;
  CHECK_FALSE(stale(short_one));
  short_one.turns = Turns::of(990);
  CHECK(stale(short_one));
  tag::TagFigures id_alone;
  id_alone.id = now.id;
  CHECK_FALSE(stale(id_alone));
}

TEST_CASE("a labelled entry that can't be read, or of another motor, leaves the night's slip") {
  for (const char* text : {"no tag at all", "L1 AB-02-X"}) {
    Motor motor;
    motor.log(Kind::labelled, {{"tag", text}});
    CHECK_FALSE(is_stale(motor));
    motor.log(Kind::wound, {{"turns", "900"}});
    CHECK(is_stale(motor));
  }
}
