// SPDX-License-Identifier: MIT
//
// Lives that went wrong in use: knots, loops, windings.
#include "motor/now.h"

#include <doctest/doctest.h>

#include "calc/turns_torque.h"
#include "motor/one_motor.h"

using namespace loopledger;
using namespace loopledger::test;
using doctest::Approx;
using motor::State;

TEST_CASE("a fresh motor is as planned") {
  const Motor motor;
  const Now now = motor.now();
  CHECK(now.state == State::planned);
  CHECK(now.lives.size() == 1);
  CHECK(now.loop.in_mm() == Approx(282).epsilon(0.005));
  CHECK(now.loop_is == LoopIs::planned);
  CHECK(now.largest.value.count() == Approx(4.67 * now.loop.in_mm()).epsilon(0.002));
  CHECK_FALSE(now.best);
  CHECK_FALSE(now.labelled);
}

TEST_CASE("tied again after break-in, the figures follow the new loop alone") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "283 mm"}});
  motor.log(Kind::break_in, {{"loop_after", "292 mm"}});
  motor.log(Kind::wound, {{"turns", "1050"}});
  motor.log(Kind::labelled, {{"tag", "AB-01"}});
  motor.log(Kind::tied, {{"loop", "200 mm"}});
  const Now now = motor.now();
  check_turns(now, 747, 798);
  CHECK_FALSE(now.best);
  CHECK_FALSE(now.growth);
  CHECK(now.full_winds == 0);
  CHECK(now.loop_is == LoopIs::tied);
  CHECK(now.labelled_before_knot);
  CHECK(now.lives.size() == 2);
}

TEST_CASE("the same without the loop after break-in") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "283 mm"}});
  motor.log(Kind::wound, {{"turns", "1050"}});
  motor.log(Kind::tied, {{"loop", "200 mm"}});
  check_turns(motor.now(), 747, 798);
  CHECK_FALSE(motor.now().best);
}

TEST_CASE("a motor far too light gets the figures of the loop that it can be") {
  Motor motor;
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.260 g"}});
  const Now now = motor.now();
  CHECK(now.loop_of_mass);
  CHECK(now.loop.in_mm() == Approx(236.2).epsilon(0.001));  // (1260 / 2.58 - 16) / 2
  check_turns(now, 882, 943);
}

TEST_CASE("a loop longer than its mass allows winds no further than the mass allows") {
  Motor motor;
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.497 g"}});
  motor.log(Kind::tied, {{"loop", "378 mm"}});
  const Now now = motor.now();
  REQUIRE(now.loop_held);
  CHECK(now.loop.in_mm() == Approx(378));
  CHECK(now.loop_held->in_mm() > 282);
  CHECK(now.loop_held->in_mm() < 295);
  CHECK(now.do_not_pass < Turns::of(1180));
  Motor known;
  known.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.497 g"}});
  known.log(Kind::tied, {{"loop", "282 mm"}});
  CHECK_FALSE(known.now().loop_held);
}

TEST_CASE("a winding without a torque hides none with it") {
  Motor motor;
  motor.log(Kind::wound, {{"turns", "950"}, {"torque", "40 gf.cm"}});
  motor.log(Kind::wound, {{"turns", "1050"}, {"torque", "46 gf.cm"}});
  motor.log(Kind::wound, {{"turns", "1080"}});
  const Now now = motor.now();
  REQUIRE(now.best);
  CHECK(now.best->turns == Turns::of(1050));
  CHECK(now.best->torque->in_gf_cm() == Approx(46));
  CHECK(now.most->turns == Turns::of(1080));
}

TEST_CASE("a winding past do-not-pass is told and is no target") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "240 mm"}});
  motor.log(Kind::wound, {{"turns", "940"}});
  motor.log(Kind::wound, {{"turns", "1000"}, {"torque", "50 gf.cm"}});
  const Now now = motor.now();
  CHECK(now.best->turns == Turns::of(940));
  REQUIRE(now.beyond);
  CHECK(now.beyond->turns == Turns::of(1000));
  CHECK(marks(now, Mark::beyond) == 1);
}

TEST_CASE("a damaged head is marked and raises nothing") {
  Motor motor;
  motor.record().planned.turns_factor = 41;
  motor.record().planned_edited = true;
  motor.log(Kind::break_in, {{"loop_after", "290 mm"}});
  const Now now = motor.now();
  CHECK(now.is_shaky());
  CHECK(now.largest.value.count() == Approx(4.67 * 290).epsilon(0.002));
  motor.record().planned.turns_factor = 5;
  CHECK(motor.now().largest.value.count() == Approx(4.67 * 290 * 5 / 11).epsilon(0.002));
}

TEST_CASE("the loop before a break-in counts as tied, and later on as broken in") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "283 mm"}});
  motor.log(Kind::break_in, {{"loop_before", "240 mm"}});
  check_turns(motor.now(), 897, 958);
  CHECK(motor.now().loop_is == LoopIs::tied);
  motor.log(Kind::break_in, {{"loop_before", "247 mm"}});
  CHECK(motor.now().loop_is == LoopIs::broken_in);
  CHECK(motor.now().loop_as_tied == Length::mm(240));
  CHECK(motor.now().growth->in_percent() == Approx(100 * 7.0 / 240));
}

TEST_CASE("set moves the turns by a tenth at most, as far as to the planned loop too") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "200 mm"}});
  const double planned = motor.record().planned.loop.in_mm();
  motor.log(Kind::break_in, {{"loop_after", "250 mm"}});
  motor.last().loop_after = Length::mm(planned);
  CHECK(motor.now().loop.in_mm() == Approx(planned));
  CHECK(motor.now().largest.value.count() == Approx(4.67 * 220).epsilon(0.002));
}

TEST_CASE("tied again at once, the washed mass still counts and still gives the loop") {
  Motor motor;
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.260 g"}});
  motor.log(Kind::tied, {{"reading", "1.260 g"}});
  motor.log(Kind::tied, {{"reading", "1.263 g"}});
  CHECK(motor.now().lives.size() == 1);
  motor.log(Kind::tied, {{"loop", "240 mm"}});
  motor.log(Kind::tied, {{"loop", "236 mm"}});
  const Now now = motor.now();
  CHECK(now.lives.size() == 2);
  CHECK(now.read.washed == Mass::g(1.260));
  REQUIRE(now.rubber);
  CHECK(now.rubber->in_g() == Approx(1.260));
  // A loop that takes less strip than was washed: the rest was cut off.
  motor.log(Kind::tied, {{"loop", "200 mm"}});
  CHECK_FALSE(motor.now().rubber);
}

TEST_CASE("strip thicker than planned stays as thick in a shorter knot, not in a longer one") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "240 mm"}, {"reading", "1.497 g"}});
  const Now thick = motor.now();
  const Area planned = motor.record().planned.section;
  CHECK(thick.section / planned == Approx(1.497 / (2.58 * 0.496)).epsilon(0.001));
  motor.log(Kind::tied, {{"loop", "230 mm"}});
  CHECK(motor.now().section == thick.section);
  CHECK(motor.now().wind_to < thick.wind_to);
  motor.log(Kind::tied, {{"loop", "282 mm"}});
  CHECK(motor.now().section == planned);
}

TEST_CASE("wind to stays under never pass in whole turns, in a head of old too") {
  CHECK(whole_down(calc::most_to_wind(Turns::of(4.3))) == Turns::of(3));
  CHECK(calc::most_to_wind(Turns::of(1000.5)) == Turns::of(999));
  CHECK(calc::most_to_wind(Turns::of(0.5)) == Turns{});
  Motor motor;
  motor.record().planned.wind_to = motor.record().planned.turns_max.low;
  CHECK(whole_down(motor.now().wind_to) < whole_down(motor.now().do_not_pass));
}

TEST_CASE("the state follows from what happened, and a new knot begins anew") {
  Motor motor;
  const auto state = [&motor] { return motor.now().state; };
  CHECK(state() == State::planned);
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.494 g"}});
  CHECK(state() == State::planned);
  motor.log(Kind::tied, {{"loop", "282 mm"}, {"reading", "1.495 g"}});
  CHECK(state() == State::tied);
  motor.log(Kind::break_in, {{"loop_after", "291 mm"}});
  CHECK(state() == State::broken_in);
  motor.log(Kind::wound, {{"turns", "1000"}, {"torque", "41 gf.cm"}});
  CHECK(state() == State::broken_in);
  motor.log(Kind::flown, {{"time", "7:31"}});
  CHECK(state() == State::flown);
  motor.log(Kind::wound, {{"turns", "900"}, {"end", "broke"}});
  CHECK(state() == State::retired);

  const Now over = motor.now();
  CHECK(over.read.washed == Mass::g(1.494));
  CHECK(over.read.tied == Mass::g(1.495));
  CHECK(over.loop == Length::mm(291));
  CHECK(over.loop_is == LoopIs::broken_in);
  CHECK(over.best->turns == Turns::of(1000));
  CHECK(over.best->torque->in_gf_cm() == Approx(41));
  CHECK(over.windings == 2);
  CHECK(over.flights == 1);

  motor.log(Kind::tied, {{"loop", "270 mm"}});
  const Now anew = motor.now();
  CHECK(anew.state == State::tied);
  CHECK(anew.loop == Length::mm(270));
  CHECK_FALSE(anew.best);
  CHECK(anew.flights == 0);
  CHECK_FALSE(anew.read.washed);
  CHECK_FALSE(anew.read.tied);
  CHECK_FALSE(anew.rubber);
}

TEST_CASE("state words read back") {
  for (const State s :
       {State::planned, State::tied, State::broken_in, State::flown, State::retired}) {
    CHECK(motor::state_from(motor::word(s)) == s);
  }
  CHECK(motor::state_from("Broken in") == State::broken_in);
  CHECK_FALSE(motor::state_from("lost"));
}
