// SPDX-License-Identifier: MIT
//
// Lives that went wrong in use, by hand. The night's strip is 2.58 g/m, two strands of it: a loop
// of L mm is estimated to break near 4.67 L turns; "wind to" is 0.80 and "do not pass" 0.855 of it.
// Source of the formula: [turns].
#include "motor/now.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "calc/turns_torque.h"
#include "calc/work_out.h"
#include "records/fields.h"
#include "support/plan_text.h"

using namespace loopledger;
using namespace loopledger::test;
using doctest::Approx;
using motor::Mark;
using motor::Now;
using motor::now_of;
using motor::State;
using records::Entry;
using records::Kind;
using records::Record;

namespace {

using Fields = std::vector<std::pair<std::string, std::string>>;

constexpr std::string_view kNight = R"(format = 1
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber", "lubricant"] }
strips.tan = { width = "2.5 mm", samples = [["500 mm", "1.290 g"]] }
[[motors]]
id = "AB"
rule = "club"
mass = "limit"
)";

/// A motor of that night and what is logged of it, an entry a day.
class Motor {
 public:
  explicit Motor(std::string_view plan = kNight) {
    const auto read = test::read(plan);
    REQUIRE_MESSAGE(read.ok(), said(read.diagnostics()));
    const auto batch = calc::work_out(*read);
    REQUIRE_MESSAGE(batch.ok(), said(batch.diagnostics()));
    record_.id = {"AB", 1};
    record_.planned = batch->motors.front().planned;
  }

  /// @return its key
  std::string log(Kind kind, const Fields& fields = {}) { return log_on(++day_, kind, fields); }
  /// On that day of February 2026.
  std::string log_on(int day, Kind kind, const Fields& fields = {}) {
    Entry e;
    e.kind = kind;
    e.key = records::make_key(midnight_utc({2026, 2, day}),
                              "aa" + std::to_string(10 + record_.entries.size()));
    for (const auto& given : fields) {
      const records::Field* const field = records::find_field(kind, given.first);
      REQUIRE_MESSAGE(field != nullptr, given.first);
      REQUIRE(records::set_field(e, *field, given.second).empty());
    }
    record_.entries.push_back(e);
    return e.key;
  }
  void take_back(const std::string& key) { log(Kind::note, {{"text", "no"}, {"corrects", key}}); }

  [[nodiscard]] Record& record() { return record_; }
  [[nodiscard]] Entry& last() { return record_.entries.back(); }
  [[nodiscard]] Now now() const { return now_of(record_); }

 private:
  Record record_;
  int day_ = 0;
};

/// To the nearest turn.
void check_turns(const Now& now, double wind_to, double do_not_pass) {
  CHECK(std::round(now.wind_to.count()) == wind_to);
  CHECK(std::round(now.do_not_pass.count()) == do_not_pass);
}

int marks(const Now& now, Mark mark) {
  int count = 0;
  for (const motor::Marked& m : now.marked) {
    count += m.mark == mark ? 1 : 0;
  }
  return count;
}

}  // namespace

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

TEST_CASE("a motor far too light gets the figures of the loop that it can be") {
  Motor motor;
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.260 g"}});
  const Now now = motor.now();
  CHECK(now.loop_of_mass);
  CHECK(now.loop.in_mm() == Approx(236.2).epsilon(0.001));  // (1260 / 2.58 - 16) / 2
  check_turns(now, 882, 943);
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
  CHECK(calc::most_to_wind(Turns::of(1000.5)).count() == Approx(980.49));
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

TEST_CASE("state words read back") {
  for (const State s :
       {State::planned, State::tied, State::broken_in, State::flown, State::retired}) {
    CHECK(motor::state_from(motor::word(s)) == s);
  }
  CHECK(motor::state_from("Broken in") == State::broken_in);
  CHECK_FALSE(motor::state_from("lost"));
}
