// SPDX-License-Identifier: MIT
//
// What is told of the launch: how far to back off, what is left, the curve, the energy.
#include <doctest/doctest.h>

#include "motor/advice.h"
#include "motor/one_motor.h"
#include "support/has.h"

using namespace loopledger;
using namespace loopledger::test;
using motor::Today;

namespace {

std::vector<std::string> launch_told(Motor& motor, const Today& today = {},
                                     Units units = Units::metric) {
  return motor::launch_lines(motor.record(), motor.now(), today, units);
}

Today launch_at(double gf_cm, double ratio = 1) {
  Today today;
  today.launch = Torque::gf_cm(gf_cm);
  today.winder_ratio = ratio;
  return today;
}

Today letting_out(double turns, double ratio = 1) {
  Today today;
  today.let_out = Turns::of(turns);
  today.winder_ratio = ratio;
  return today;
}

/// Wound to 1000 turns at 41 gf·cm.
Motor wound_motor() {
  Motor motor;
  motor.log(Kind::wound, {{"turns", "1000"}, {"torque", "41 gf.cm"}});
  return motor;
}

/// "104" of "… back off 104 turns …".
double number_behind(const std::string& line, const std::string& words) {
  const std::size_t at = line.find(words);
  REQUIRE_MESSAGE(at != std::string::npos, line);
  return std::stod(line.substr(at + words.size()));
}

}  // namespace

TEST_CASE("without a torque nothing can be told of the launch; asked for it, what to log") {
  Motor motor;
  CHECK(launch_told(motor).empty());
  CHECK(launch_told(motor, launch_at(20)) ==
        std::vector<std::string>{"launch at 20 gf·cm: log a winding with its torque, then how far "
                                 "to back off can be told"});
  CHECK(
      launch_told(motor, launch_at(20), Units::inch)[0].starts_with("launch at 0.278 ozf·in: log"));
  CHECK(
      launch_told(motor, letting_out(100))[0].starts_with("launch: log a winding with its torque"));
  CHECK_FALSE(motor::launch_curve(motor.record(), motor.now()));
}

TEST_CASE("backing off to a torque and letting the same turns out lead to one another") {
  Motor motor = wound_motor();
  const auto off = launch_told(motor, launch_at(25));
  REQUIRE(off.size() == 2);
  CHECK(off[0].starts_with("launch at 25 gf·cm: from 1000 turns at 41 gf·cm back off "));
  CHECK(off[0].ends_with(" % of the energy (estimate)"));
  const double turns = number_behind(off[0], "back off ");
  const auto out = launch_told(motor, letting_out(turns));
  REQUIRE(out.size() == 2);
  CHECK(out[0].starts_with("back off " + std::to_string(static_cast<int>(turns)) + " turns: " +
                           std::to_string(1000 - static_cast<int>(turns)) + " left at 25 gf·cm, "));
  CHECK(out[0].ends_with(" % of the energy gone (estimate)"));
}

TEST_CASE("turns to let out are told in the nearest whole cranks") {
  Motor motor = wound_motor();
  CHECK(launch_told(motor, letting_out(104, 15))[0].starts_with("back off 104 turns = 7 cranks: "));
  CHECK(has(launch_told(motor, launch_at(25, 10))[0], " cranks, "));
}

TEST_CASE("a torque that its best winding did not give, one that it just gave, all let out") {
  Motor motor = wound_motor();
  CHECK(launch_told(motor, launch_at(45))[0] ==
        "launch at 45 gf·cm: not reached, its best winding gave 1000 turns at 41 gf·cm");
  CHECK(launch_told(motor, launch_at(41))[0] ==
        "launch at 41 gf·cm: no turns to back off, its best winding gave 1000 turns at 41 gf·cm");
  CHECK(launch_told(motor, letting_out(1000))[0] ==
        "backing off 1000 turns leaves nothing of 1000 turns at 41 gf·cm");
  CHECK(has(launch_told(motor, launch_at(45), Units::inch)[0], "gave 1000 turns at 0.569 ozf·in"));
}

TEST_CASE("energy is told from its best winding, and from its largest turns as published figures") {
  Motor motor = wound_motor();
  const auto lines = launch_told(motor);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].starts_with("energy from 1000 turns "));
  CHECK(has(lines[0], " J; from its largest "));
  const auto curve = motor::launch_curve(motor.record(), motor.now());
  REQUIRE(curve);
  CHECK(number_behind(lines[0], "from 1000 turns ") ==
        doctest::Approx(curve->curve.energy_below(Turns::of(1000)).in_joule()).epsilon(0.05));
  CHECK(curve->full.top_turns() == motor.now().largest.value);
  CHECK_FALSE(curve->own);
}

TEST_CASE("the rubber is that of the newest reading, else as planned") {
  Motor motor;
  CHECK(motor::rubber_of(motor.record(), motor.now()) == motor.record().planned.aim);
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.488 g"}});
  CHECK(motor::rubber_of(motor.record(), motor.now()) == Mass::g(1.488));
}

TEST_CASE("the last launch is told with the torque that was left") {
  Motor motor;
  motor.log(Kind::wound, {{"turns", "1000"}, {"backed_off_to", "900"}});
  CHECK(launch_told(motor) == std::vector<std::string>{"last launch with 900 turns left in"});
  motor.log(Kind::wound, {{"turns", "1000"}, {"torque", "41 gf.cm"}, {"backed_off_to", "900"}});
  CHECK(launch_told(motor)[0].starts_with("last launch with 900 turns left in, about "));
  CHECK(launch_told(motor)[0].ends_with(" gf·cm (estimate)"));
  CHECK(has(launch_told(motor, {}, Units::inch)[0], " ozf·in (estimate)"));
}

TEST_CASE("a curve of its own is told with its day, and whether it was read while unwinding") {
  Motor motor;
  motor.log_on(3, Kind::wound,
               {{"turns", "1000"},
                {"torque", "41 gf.cm"},
                {"pairs", "900: 30 gf.cm, 700: 22 gf.cm, 400: 14 gf.cm, 100: 6 gf.cm"}});
  const auto curve = motor::launch_curve(motor.record(), motor.now());
  REQUIRE(curve);
  REQUIRE(curve->own);
  CHECK(curve->own->unwinding);
  CHECK(launch_told(motor)[0] ==
        "torque curve: its own, 5 torques read while unwinding on 2026-02-03");
  motor.log_on(4, Kind::wound,
               {{"turns", "1000"},
                {"torque", "41 gf.cm"},
                {"pairs", "100: 6 gf.cm, 400: 14 gf.cm, 700: 22 gf.cm, 900: 30 gf.cm"}});
  CHECK(launch_told(motor)[0] ==
        "torque curve: its own, 5 torques read while winding on 2026-02-04; unwinding reads less, "
        "so back off less than this says");
}
