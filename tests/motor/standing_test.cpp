// SPDX-License-Identifier: MIT
//
// Lives that went wrong in use: corrections, lines without sum, merged lines.
#include "motor/standing.h"

#include <doctest/doctest.h>

#include "motor/one_motor.h"

using namespace loopledger;
using namespace loopledger::test;
using motor::State;

TEST_CASE("a correction of the first knot's loop says nothing of the second") {
  Motor motor;
  const std::string first = motor.log(Kind::tied, {{"loop", "383 mm"}});
  motor.log(Kind::broke);
  motor.log(Kind::tied, {{"loop", "240 mm"}});
  motor.log(Kind::tied, {{"loop", "283 mm"}, {"corrects", first}});
  const Now now = motor.now();
  CHECK(now.loop == Length::mm(240));
  check_turns(now, 897, 958);
  REQUIRE(now.lives.size() == 2);
  CHECK(now.lives[0].entries[0].entry->loop == Length::mm(283));
  CHECK(now.lives[0].strains[0].loop == Length::mm(283));
}

TEST_CASE("a correction of the first knot's break-in says nothing of the second") {
  Motor motor;
  const std::string first = motor.log(Kind::break_in, {{"loop_after", "292 mm"}});
  motor.log(Kind::broke);
  motor.log(Kind::tied, {{"loop", "220 mm"}});
  motor.log(Kind::break_in, {{"loop_after", "290 mm"}, {"corrects", first}});
  check_turns(motor.now(), 822, 878);
}

TEST_CASE("a correction of the first knot's winding is no best of the second") {
  Motor motor;
  const std::string first = motor.log(Kind::wound, {{"turns", "1100"}});
  motor.log(Kind::broke);
  motor.log(Kind::tied, {{"loop", "200 mm"}});
  motor.log(Kind::wound, {{"turns", "1020"}, {"corrects", first}});
  CHECK_FALSE(motor.now().best);
  CHECK(motor.now().windings == 0);
  check_turns(motor.now(), 747, 798);
}

TEST_CASE("a retired motor whose loop is corrected is still retired") {
  Motor motor;
  const std::string tied = motor.log(Kind::tied, {{"loop", "284 mm"}});
  motor.log(Kind::wound, {{"turns", "900"}});
  motor.log(Kind::retired, {{"why", "nick"}});
  motor.log(Kind::tied, {{"loop", "283 mm"}, {"corrects", tied}});
  CHECK(motor.now().state == State::retired);
  CHECK(motor.now().loop == Length::mm(283));
}

TEST_CASE("a correction of an older weighing does not hide the newer one") {
  Motor motor;
  const std::string older = motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.513 g"}});
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.497 g"}});
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.511 g"}, {"corrects", older}});
  CHECK(motor.now().read.washed == Mass::g(1.497));
}

TEST_CASE("of two corrections of one entry the newest counts, and the other is named") {
  Motor motor;
  const std::string wound = motor.log(Kind::wound, {{"turns", "980"}});
  const std::string slip = motor.log(Kind::wound, {{"turns", "1450"}, {"corrects", wound}});
  const std::string right = motor.log(Kind::wound, {{"turns", "1045"}, {"corrects", wound}});
  const Now now = motor.now();
  REQUIRE(now.best);
  CHECK(now.best->turns == Turns::of(1045));
  CHECK(now.windings == 1);
  REQUIRE(marks(now, Mark::superseded) == 1);
  CHECK(now.marked[0].entry->key == slip);
  CHECK(now.marked[0].other->key == right);
  // The newest is the newest by its time, wherever a merge has put it.
  std::swap(motor.record().entries[1], motor.record().entries[2]);
  CHECK(motor.now().best->turns == Turns::of(1045));
}

TEST_CASE("a taking-back that is taken back lets the break count") {
  Motor motor;
  motor.log(Kind::wound, {{"turns", "900"}});
  const std::string broke = motor.log(Kind::broke, {{"turns", "1060"}});
  motor.take_back(broke);
  CHECK(motor.now().state == State::broken_in);
  motor.take_back(motor.last().key);
  CHECK(motor.now().state == State::retired);
}

TEST_CASE("a correction that is taken back restores what it took") {
  Motor motor;
  const std::string wound = motor.log(Kind::wound, {{"turns", "980"}});
  motor.take_back(motor.log(Kind::wound, {{"turns", "1045"}, {"corrects", wound}}));
  CHECK(motor.now().best->turns == Turns::of(980));
}

TEST_CASE("what is taken back stands nowhere, and its date is no last date") {
  Motor motor;
  motor.log_on(3, Kind::tied, {{"loop", "283 mm"}});
  const std::string slip = motor.log_on(27, Kind::flown);
  motor.log_on(4, Kind::note, {{"text", "wrong year"}, {"corrects", slip}});
  CHECK(motor.now().life().entries.size() == 1);
  CHECK(motor.now().last == Date{2026, 2, 3});
}

TEST_CASE("of two corrections of an entry that is not there the newest counts") {
  Motor motor;
  const std::string lost = "20260203T100000Z-lost";
  motor.log(Kind::wound, {{"turns", "980"}, {"corrects", lost}});
  motor.log(Kind::wound, {{"turns", "900"}, {"corrects", lost}});
  const Now now = motor.now();
  CHECK(now.windings == 1);
  CHECK(now.best->turns == Turns::of(900));
  CHECK(now.worked_at == records::moment_of_key(lost));
  CHECK(marks(now, Mark::superseded) == 1);
  motor.log(Kind::note, {{"text", "never was"}, {"corrects", lost}});
  CHECK(motor.now().windings == 0);
}

TEST_CASE("a line without a time stands with the sound line before it") {
  Motor motor;
  const std::string first = motor.log_on(1, Kind::tied, {{"loop", "283 mm"}});
  motor.log_on(9, Kind::tied, {{"loop", "282 mm"}, {"corrects", first}});
  motor.log_on(9, Kind::wound, {{"turns", "700"}});
  motor.last().key = "by hand";
  motor.log_on(5, Kind::broke);
  motor.log_on(6, Kind::tied, {{"loop", "240 mm"}});
  // Behind the correction of the ninth, so behind the knot of the sixth.
  REQUIRE(motor.now().best);
  CHECK(motor.now().best->turns == Turns::of(700));
  CHECK_FALSE(motor.now().best->at);
}

TEST_CASE("a winding of before the break belongs to the life of its time, and that is told") {
  Motor motor;
  motor.log_on(1, Kind::tied, {{"loop", "283 mm"}});
  motor.log_on(10, Kind::wound, {{"turns", "900"}, {"end", "broke"}});
  motor.log_on(12, Kind::tied, {{"loop", "200 mm"}});
  const std::string merged = motor.log_on(3, Kind::wound, {{"turns", "1050"}});
  const Now now = motor.now();
  check_turns(now, 747, 798);
  CHECK_FALSE(now.best);
  REQUIRE(now.lives.size() == 2);
  CHECK(now.lives[0].strains.size() == 2);
  REQUIRE(marks(now, Mark::late) == 1);
  CHECK(now.marked[0].entry->key == merged);
  CHECK(now.marked[0].other->end == WindEnd::broke);
}

TEST_CASE("a break that is merged behind the next knot is told as late") {
  Motor motor;
  motor.log_on(1, Kind::tied, {{"loop", "283 mm"}});
  motor.log_on(12, Kind::tied, {{"loop", "200 mm"}});
  motor.log_on(10, Kind::broke, {{"turns", "1100"}});
  CHECK(motor.now().state == State::tied);
  CHECK(marks(motor.now(), Mark::late) == 1);
}

TEST_CASE("a line without sum ties no broken motor again") {
  Motor motor;
  motor.log(Kind::wound, {{"turns", "1000"}, {"end", "broke"}});
  motor.log(Kind::tied, {{"loop", "200 mm"}});
  motor.last().edited = true;
  CHECK(motor.now().state == State::retired);
  CHECK(motor.now().lives.size() == 1);
  CHECK(marks(motor.now(), Mark::unsound) == 1);
}

TEST_CASE("a line without sum ends no life, but it may be over") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "283 mm"}});
  motor.log(Kind::broke);
  motor.last().edited = true;
  CHECK(motor.now().state == State::tied);
  CHECK(motor.now().may_be_over());
  motor.take_back(motor.last().key);
  CHECK_FALSE(motor.now().may_be_over());
}

TEST_CASE("what a line said before it was damaged can't be known: it marks the motor") {
  for (const Kind kind : {Kind::wound, Kind::other}) {
    Motor motor;
    motor.log(Kind::tied, {{"loop", "283 mm"}});
    motor.log(Kind::wound, {{"turns", "1000"}, {"end", "stopped"}});
    motor.last().kind = kind;
    CHECK_FALSE(motor.now().is_shaky());
    motor.last().edited = true;
    CHECK(motor.now().is_shaky());
  }
  Motor motor;
  motor.log(Kind::note, {{"text", "dusty"}});
  motor.last().edited = true;
  motor.log(Kind::flown, {{"time", "7:31"}});
  motor.last().edited = true;
  CHECK_FALSE(motor.now().is_shaky());
}

TEST_CASE("a line that is no entry any more marks the motor until a new knot") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "283 mm"}});
  motor.log(Kind::wound, {{"turns", "1000"}});
  for (std::size_t i = 0; i < motor.record().entries.size(); ++i) {
    motor.record().entries[i].line = static_cast<int>(20 + i);
  }
  motor.record().lost = {22};
  CHECK(motor.now().is_shaky());
  CHECK(marks(motor.now(), Mark::lost) == 1);
  motor.log(Kind::tied, {{"loop", "200 mm"}});
  motor.last().line = 23;
  CHECK_FALSE(motor.now().is_shaky());
}

TEST_CASE("unsound lines are no figures, and what a sound line corrects does not count") {
  Motor motor;
  const std::string best = motor.log(Kind::wound, {{"turns", "1050"}});
  motor.log(Kind::wound, {{"turns", "1000"}});
  motor.record().entries[0].edited = true;
  CHECK(motor.now().best->turns == Turns::of(1000));
  motor.record().entries[0].edited = false;
  motor.log(Kind::wound, {{"turns", "920"}, {"corrects", best}});
  CHECK(motor.now().best->turns == Turns::of(1000));
  motor.last().edited = true;
  CHECK(motor.now().best->turns == Turns::of(1050));
}
