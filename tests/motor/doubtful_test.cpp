// SPDX-License-Identifier: MIT
//
// What can't be relied on is marked, and what lowers a target lowers it: damaged lines, a motor
// that felt solid, strip cut too light, a loop and a mass that say the section. By hand: largest
// turns N = 11.0 L / sqrt(A), A = strands x linear density / 0.93 g/cm3. Sources: [turns],
// [density].
#include <doctest/doctest.h>

#include "motor/one_motor.h"

using namespace loopledger;
using namespace loopledger::test;
using doctest::Approx;

TEST_CASE(
    "a damaged line that would lower the target marks the motor; in a former life it does not") {
  for (const auto& [kind, fields] : std::vector<std::pair<Kind, Fields>>{
           {Kind::tied, {{"loop", "200 mm"}}},
           {Kind::weighed, {{"stage", "washed"}, {"reading", "1.260 g"}}},
           {Kind::break_in, {{"loop_after", "250 mm"}}},
           {Kind::wound, {{"turns", "700"}, {"end", "solid"}}}}) {
    Motor motor;
    motor.log(Kind::tied, {{"loop", "283 mm"}});
    motor.log(kind, fields);
    CHECK_FALSE(motor.now().is_shaky());
    motor.last().edited = true;
    CHECK(motor.now().is_shaky());
    CHECK_FALSE(motor.now().may_be_over());
    motor.log(Kind::wound, {{"turns", "900"}});
    motor.log(Kind::tied, {{"loop", "260 mm"}});
    CHECK_FALSE(motor.now().is_shaky());
  }
}

TEST_CASE("a damaged break is looked at first, until the motor has a new knot") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "283 mm"}});
  motor.log(Kind::wound, {{"turns", "900"}, {"end", "broke"}});
  motor.last().edited = true;
  CHECK(motor.now().may_be_over());
  motor.log(Kind::wound, {{"turns", "900"}});
  motor.log(Kind::tied, {{"loop", "260 mm"}});
  CHECK_FALSE(motor.now().may_be_over());
}

TEST_CASE("a torn record is marked") {
  Motor motor;
  motor.record().torn = true;
  CHECK(motor.now().is_shaky());
}

TEST_CASE("a motor that felt solid early has its limit there") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "283 mm"}});
  motor.log(Kind::wound, {{"turns", "700"}, {"torque", "42 gf.cm"}, {"end", "solid"}});
  const Now now = motor.now();
  CHECK(now.do_not_pass == Turns::of(700));
  CHECK(now.wind_to.count() == Approx(630));  // nine tenths
  CHECK(now.best->turns == Turns::of(700));
  motor.log(Kind::wound, {{"turns", "800"}});
  CHECK(motor.now().beyond->turns == Turns::of(800));
  motor.log(Kind::tied, {{"loop", "270 mm"}});
  CHECK(motor.now().do_not_pass > Turns::of(1000));  // another knot, another motor
  Motor late;
  late.log(Kind::tied, {{"loop", "283 mm"}});
  late.log(Kind::wound, {{"turns", "1200"}, {"end", "solid"}});
  CHECK(late.now().do_not_pass < Turns::of(1140));
}

TEST_CASE(
    "strip that was cut too light winds as the loop that it can make, until it is weighed again") {
  Motor motor;
  motor.log(Kind::weighed, {{"stage", "as_cut"}, {"reading", "1.300 g"}});
  // (1300 / 2.58 - 16) / 2 = 243.9 mm at most
  CHECK(motor.now().loop_as_tied.in_mm() == Approx(243.9).epsilon(0.001));
  CHECK(motor.now().do_not_pass.count() == Approx(974).epsilon(0.002));
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.497 g"}});
  CHECK(motor.now().do_not_pass.count() == Approx(1126.5).epsilon(0.001));
}

TEST_CASE("mass and loop say the section, and measuring the loop raises nothing") {
  constexpr std::string_view kThick = R"(format = 1
bench = { scale_step = "10 mg" }
strips.tan = { width = "3 mm", thickness = "1 mm" }
[[motors]]
id = "AB"
loop = "300 mm"
)";
  Motor motor(kThick);
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "2.00 g"}});
  const Turns weighed = motor.now().do_not_pass;
  motor.log(Kind::tied, {{"loop", "300 mm"}});
  const Now now = motor.now();
  CHECK(now.do_not_pass.count() == Approx(weighed.count()).epsilon(1e-9));
  // A = 2 x 2.00 g / 0.616 m / 0.93 g/cm3 = 6.983 mm2; N = 11 x 300 / 2.6425 = 1248.8
  CHECK(now.section.in_mm2() == Approx(6.983).epsilon(0.001));
  CHECK(now.largest.value.count() == Approx(1248.8).epsilon(0.001));
}

TEST_CASE("a head that was accepted though it contradicts itself raises nothing") {
  Motor motor;
  const Turns sound = [&] {
    Motor other;
    other.log(Kind::tied, {{"loop", "283 mm"}});
    return other.now().do_not_pass;
  }();
  motor.record().planned.turns_factor = 41;
  motor.log(Kind::tied, {{"loop", "283 mm"}});
  CHECK(motor.now().do_not_pass.count() == Approx(sound.count()).epsilon(1e-9));
}
