// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "base/motor_id.h"
#include "base/terms.h"

using namespace loopledger;

TEST_CASE("every word of the trade reads back to what it stands for") {
  for (const Stage stage : kStages) {
    CHECK(stage_from(word(stage)) == stage);
  }
  for (const Weighed weighed : {Weighed::fresh, Weighed::rested}) {
    CHECK(weighed_from(word(weighed)) == weighed);
  }
  for (const WindEnd end : {WindEnd::broke, WindEnd::solid, WindEnd::stopped}) {
    CHECK(wind_end_from(word(end)) == end);
  }
  for (const BreakPlace place : {BreakPlace::knot, BreakPlace::hook, BreakPlace::middle}) {
    CHECK(break_place_from(word(place)) == place);
  }
}

TEST_CASE("a word is read in any case and as people write it") {
  CHECK(stage_from("as cut") == Stage::as_cut);
  CHECK(stage_from("As-Cut") == Stage::as_cut);
  CHECK(stage_from(" TIED ") == Stage::tied);
  CHECK(wind_end_from("Broke") == WindEnd::broke);
  CHECK_FALSE(stage_from("wet").has_value());
  CHECK_FALSE(stage_from("").has_value());
  CHECK_FALSE(weighed_from("tied").has_value());
}

TEST_CASE("a motor's number has two digits, and three from 100 on") {
  CHECK(printed(MotorId{"TH", 1}) == "TH-01");
  CHECK(printed(MotorId{"TH", 99}) == "TH-99");
  CHECK(printed(MotorId{"F1M", 100}) == "F1M-100");
}

TEST_CASE("a stem is 1 to 8 ASCII letters or digits") {
  CHECK(is_stem("TH"));
  CHECK(is_stem("f1d2026a"));
  CHECK_FALSE(is_stem(""));
  CHECK_FALSE(is_stem("ABCDEFGHI"));
  CHECK_FALSE(is_stem("A-B"));
  CHECK_FALSE(is_stem("../x"));
  CHECK_FALSE(is_stem("Łó"));
}
