// SPDX-License-Identifier: MIT
#include "motor/consequences.h"

#include "one_motor.h"
#include "support/has.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

using Lines = std::vector<std::string>;

/// What follows from the next entry of the motor, which then has it.
Lines after(Motor& motor, Kind kind, const Fields& fields) {
  const Record before = motor.record();
  motor.log(kind, fields);
  return motor::consequences(before, motor.record(), motor.last(), Units::metric);
}

constexpr std::string_view kPlain = R"(format = 1
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
strips.tan = { width = "2.5 mm", samples = [["500 mm", "1.290 g"]] }
[[motors]]
id = "AB"
rule = "club"
mass = "limit"
)";

}  // namespace

TEST_CASE("a reading is followed by its verdict; what the rule counts and nobody names is told") {
  Motor plain(kPlain);
  const Lines ok = after(plain, Kind::weighed, {{"stage", "washed"}, {"reading", "1.497 g"}});
  REQUIRE(ok.size() == 1);
  CHECK(has(ok[0], "within its window"));
  Motor unnamed;
  const Lines lines = after(unnamed, Kind::weighed, {{"stage", "washed"}, {"reading", "1.497 g"}});
  REQUIRE(lines.size() == 2);
  CHECK(lines[1] == "lubricant counts too, and the motor names none");
  CHECK(motor::unnamed_words(plain.record().planned).empty());
}

TEST_CASE("a motor that was over when washed is told so when it is weighed tied") {
  Motor motor(kPlain);
  const Lines over = after(motor, Kind::weighed, {{"stage", "washed"}, {"reading", "1.520 g"}});
  REQUIRE(over.size() == 1);
  CHECK(has(over[0], "over"));
  const motor::Readings read = motor.now().read;
  const records::Planned& p = motor.record().planned;  // washed up to 1.498 g
  CHECK(motor::over_before(p, Stage::tied, Mass::g(1.520), read) ==
        "it was 22 mg over when washed");
  CHECK(motor::over_before(p, Stage::tied, Mass::g(1.480), read).empty());  // snipped since
  CHECK(motor::over_before(p, Stage::washed, Mass::g(1.520), read).empty());
}

TEST_CASE("a winding is held against the best before it and against do not pass") {
  Motor motor;  // wind to 0.80, do not pass 0.855 of 4.67 x 282 = 1317 turns
  CHECK(after(motor, Kind::tied, {{"loop", "282 mm"}}) == Lines{"it is now tied"});
  const Lines first = after(motor, Kind::wound, {{"turns", "900"}});
  REQUIRE_FALSE(first.empty());
  CHECK(has(first[0], "turns left before \"do not pass\", 11"));
  const Lines more = after(motor, Kind::wound, {{"turns", "1000"}});
  REQUIRE(more.size() == 2);
  CHECK(more[0] == "more than ever before: 900 turns");
  const Lines less = after(motor, Kind::wound, {{"turns", "950"}});
  CHECK(less.size() == 1);
  const Lines past = after(motor, Kind::wound, {{"turns", "1200"}});
  REQUIRE(past.size() == 2);
  CHECK(has(past[1], "past \"do not pass\", 11"));
}

TEST_CASE("a motor that broke is not to be wound, and says how it is now") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "282 mm"}});
  CHECK(after(motor, Kind::broke, {{"turns", "1100"}}) == Lines{"it is now retired"});
  CHECK(after(motor, Kind::wound, {{"turns", "900"}}) ==
        Lines{"it is retired, not to be wound; log it tied again when it has a new knot"});
}

TEST_CASE("break-in tells the set and where to wind to") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "282 mm"}});
  const Lines lines = after(motor, Kind::break_in, {{"loop_after", "290 mm"}});
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].starts_with("set +2.8 %"));
  CHECK(has(lines[0], "; wind to "));
  CHECK(motor::growth_words(motor.record()).starts_with("set +2.8 %"));
  CHECK(lines[1] == "it is now broken in");
}

TEST_CASE("a new knot makes history, and the same loop again is asked about") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "282 mm"}});
  motor.log(Kind::wound, {{"turns", "900"}});
  const Record before = motor.record();
  motor.log(Kind::tied, {{"loop", "282 mm"}});
  const auto words = [&](const std::string& take_back) {
    return motor::new_knot_words(before, motor.record(), motor.last(), Units::metric, take_back);
  };
  REQUIRE(words("undo").size() == 2);
  CHECK(words("undo")[0] ==
        "a new knot: best 900, the loop of 282 mm, 1 winding of before are history");
  CHECK(has(words("undo")[1], "take it back: undo;"));
  const Lines lines = motor::consequences(before, motor.record(), motor.last(), Units::metric);
  REQUIRE(lines.size() >= 2);
  const std::string& key = motor.last().key;
  CHECK(has(lines[1], "`loopledger log AB-01 note measured again corrects=" +
                          key.substr(key.size() - 4) + "`"));
  Motor fresh;
  fresh.log(Kind::tied, {{"loop", "282 mm"}});
  CHECK(motor::new_knot_words(before, fresh.record(), fresh.last(), Units::metric, "undo").empty());
}

TEST_CASE("a correction says what it replaces, what it takes back, and what counts again") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "282 mm"}});
  const std::string key = motor.log(Kind::wound, {{"turns", "900"}});
  const auto words = [&](Kind kind, const Fields& fields) {
    const Record before = motor.record();
    motor.log(kind, fields);
    return motor::correction_words(before, motor.record(), motor.last(), Units::metric);
  };
  CHECK(words(Kind::wound, {{"turns", "800"}, {"corrects", key}}) ==
        "replaces wound to 900 turns; counts at its time, 2026-02-02 00:00");
  const std::string second = motor.last().key;
  CHECK(words(Kind::note, {{"text", "no"}, {"corrects", second}}) ==
        "takes back: wound to 800 turns; counts again: wound to 900 turns");
  CHECK(words(Kind::note, {{"text", "no"}, {"corrects", key}})
            .starts_with("takes back: wound to 900 turns"));
  CHECK(words(Kind::wound, {{"turns", "850"}, {"corrects", "20260101T000000Z-none"}}) ==
        "replaces what could not be relied on");
  CHECK(words(Kind::wound, {{"turns", "860"}}).empty());
}
