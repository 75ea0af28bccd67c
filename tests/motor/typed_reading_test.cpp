// SPDX-License-Identifier: MIT
#include "motor/typed_reading.h"

#include "one_motor.h"

using namespace loopledger;
using namespace loopledger::test;
using motor::Asked;

namespace {

constexpr std::string_view kWhole = R"(format = 1
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
rings.small = { weighed = 10, mass = "60 mg", spread = "0.3 mg" }
lubricants.oil = { uptake = "1 %" }
recipes.slow = { steps = [{ stretch = 4, hold = "5 min" }, { turns = "50 %", hold = "1 min" }] }
[strips.tan]
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
talc = "2 %"
[[motors]]
id = "TH"
rule = "club"
rings = "small"
lubricant = "oil"
recipe = "slow"
mass = "limit"
)";

/// What is asked of it now; empty: nothing.
std::optional<Asked> asked(Motor& motor) {
  const auto want = motor::next_want(motor.record(), motor.now());
  return want ? std::optional(want->what) : std::nullopt;
}

motor::Understood understood(Motor& motor, const std::vector<std::string>& words,
                             Units units = Units::metric,
                             const std::optional<double>& ratio = std::nullopt) {
  const auto out = motor::understand(motor.record(), motor.now(), words, units, ratio);
  REQUIRE_MESSAGE(out.ok(), said(out.diagnostics()));
  return *out;
}

void wash(Motor& motor) { motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.497 g"}}); }

}  // namespace

TEST_CASE("readings are asked for in the order of the work, until all are there") {
  Motor motor(kWhole);
  CHECK(asked(motor) == Asked::washed);
  wash(motor);
  CHECK(asked(motor) == Asked::tied_loop);
  motor.log(Kind::tied, {{"loop", "367 mm"}});
  CHECK(asked(motor) == Asked::tied);
  motor.log(Kind::weighed, {{"stage", "tied"}, {"reading", "1.509 g"}});
  CHECK(asked(motor) == Asked::finished);
  motor.log(Kind::weighed, {{"stage", "finished"}, {"reading", "1.524 g"}});
  const auto step = motor::next_want(motor.record(), motor.now());
  REQUIRE(step);
  CHECK(step->what == Asked::break_in);
  CHECK(step->step == 2);  // the first stretches: nothing is read of it
  motor.log(Kind::break_in, {{"step", "2"}, {"turns", "800"}});
  CHECK(asked(motor) == Asked::loop_after);
  motor.log(Kind::break_in, {{"loop_after", "378 mm"}});
  CHECK_FALSE(asked(motor));
}

TEST_CASE("strip over its window is asked for washed again; a retired motor is asked nothing") {
  Motor motor(kWhole);
  motor.log(Kind::weighed, {{"stage", "washed"}, {"reading", "1.540 g"}});
  CHECK(asked(motor) == Asked::washed);
  motor.log(Kind::retired, {{"why", "perished"}});
  CHECK_FALSE(asked(motor));
}

TEST_CASE("a question says what to expect, in short it does not") {
  Motor motor(kWhole);
  const auto question = [&] {
    const auto want = motor::next_want(motor.record(), motor.now());
    REQUIRE(want);
    return motor::question(*want, motor.record(), motor.now(), Units::metric) + " | " +
           motor::short_question(*want);
  };
  CHECK(question() == "washed, g (1.496–1.498) | washed, g");
  wash(motor);
  CHECK(question().starts_with("loop as tied (36"));
  CHECK(question().ends_with(" | loop as tied"));
}

TEST_CASE("a bare number is what is asked for when it is near to that, else what it is near to") {
  Motor motor(kWhole);
  const auto washed = understood(motor, {"1.497"});
  CHECK(washed.entry.kind == Kind::weighed);
  CHECK(washed.entry.stage == Stage::washed);
  CHECK(washed.stage_inferred);
  CHECK(understood(motor, {"1.540"}).entry.stage == Stage::as_cut);  // talc is still on
  wash(motor);
  const auto loop = understood(motor, {"367"});
  CHECK(loop.entry.kind == Kind::tied);
  REQUIRE(loop.entry.loop);
  CHECK(loop.entry.loop->in_mm() == doctest::Approx(367));
  CHECK_FALSE(loop.stage_inferred);
  const auto inches = understood(motor, {"14.4"}, Units::inch);
  REQUIRE(inches.entry.loop);
  CHECK(inches.entry.loop->in_mm() == doctest::Approx(14.4 * 25.4));
  const auto turns = understood(motor, {"1180"});
  CHECK(turns.entry.kind == Kind::wound);
  CHECK(turns.turns_are == motor::TurnsAre::guessed);
}

TEST_CASE("turns that were asked for belong to the step of the recipe") {
  Motor motor(kWhole);
  motor.log(Kind::tied, {{"loop", "367 mm"}});
  motor.log(Kind::weighed, {{"stage", "finished"}, {"reading", "1.524 g"}});
  REQUIRE(asked(motor) == Asked::break_in);
  const auto turns = understood(motor, {"800"});
  CHECK(turns.entry.kind == Kind::break_in);
  CHECK(turns.entry.step == 2);
  CHECK(turns.turns_are == motor::TurnsAre::asked_for);
  const auto torque = understood(motor, {"800", "30", "gf.cm"});
  CHECK(torque.entry.kind == Kind::break_in);
  CHECK(torque.entry.step == 2);
  CHECK(torque.entry.torque.has_value());
  const auto typed = understood(motor, {"step", "1", "800"});
  CHECK(typed.entry.kind == Kind::break_in);
  CHECK(typed.entry.step == 1);
}

TEST_CASE("a stage, a kind or a unit decides what a value is") {
  Motor motor(kWhole);
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"as", "cut", "1.530"}, {"1.530", "as", "cut"}}) {
    const auto cut = understood(motor, words);
    CHECK(cut.entry.stage == Stage::as_cut);
    CHECK_FALSE(cut.stage_inferred);
  }
  CHECK(understood(motor, {"tied", "1.509"}).entry.kind == Kind::weighed);
  CHECK(understood(motor, {"tied", "367", "mm"}).entry.kind == Kind::tied);
  CHECK(understood(motor, {"loop", "367"}).entry.kind == Kind::tied);
  CHECK(understood(motor, {"broke", "1310"}).entry.kind == Kind::broke);
  CHECK(understood(motor, {"1.497", "g"}).entry.kind == Kind::weighed);
  const auto note = understood(motor, {"note", "42", "cranks", "were", "too", "many"});
  CHECK(note.entry.text == "42 cranks were too many");
}

TEST_CASE("cranks are turns by today's winder, and none without one") {
  Motor motor(kWhole);
  const auto turns = understood(motor, {"wound", "120", "cranks"}, Units::metric, 10);
  CHECK(turns.in_cranks);
  REQUIRE(turns.entry.turns);
  CHECK(turns.entry.turns->count() == doctest::Approx(1200));
  const auto unknown = motor::understand(motor.record(), motor.now(), {"120", "cranks"},
                                         Units::metric, std::nullopt);
  REQUIRE_FALSE(unknown.ok());
  CHECK(unknown.diagnostics().front().code == "log-cranks");
}

TEST_CASE("what can't be told is an error that says what could be") {
  Motor motor(kWhole);
  const auto wrong = [&](const std::vector<std::string>& words) {
    const auto out = motor::understand(motor.record(), motor.now(), words, Units::metric, {});
    REQUIRE_FALSE(out.ok());
    return out.diagnostics().front();
  };
  CHECK(wrong({}).code == "bench-value");
  CHECK(wrong({"hello"}).message == "can't tell what \"hello\" is");
  CHECK(wrong({"1,497"}).hint == "decimals stand behind a point: 1.776");
  CHECK(wrong({"loop", "long"}).hint.find("mm") != std::string::npos);
}

TEST_CASE("a light motor is still good for a rounder limit above what counts of it") {
  Motor motor(kWhole);
  const auto good = motor::still_good_for(motor.record().planned, Stage::washed, Mass::g(1.440));
  REQUIRE(good);
  CHECK(good->in_g() == doctest::Approx(1.45));
  Motor no_rule(R"(format = 1
bench = { scale_step = "1 mg" }
strips.tan = { width = "2.5 mm", samples = [["500 mm", "1.290 g"]] }
[[motors]]
id = "AB"
loop = "282 mm"
)");
  CHECK_FALSE(motor::still_good_for(no_rule.record().planned, Stage::washed, Mass::g(1)));
}
