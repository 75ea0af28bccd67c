// SPDX-License-Identifier: MIT
#include "tag/id.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

using loopledger::MotorId;
using loopledger::tag::check_character;
using loopledger::tag::id_from;
using loopledger::tag::ids_one_slip_away;
using loopledger::tag::with_check;

namespace {

constexpr std::string_view kAlphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

MotorId read(const std::string& typed) {
  const auto result = id_from(typed);
  REQUIRE_MESSAGE(result.ok(), typed);
  return result->id;
}

std::string code(const std::string& typed) {
  const auto result = id_from(typed);
  return result.ok() ? "" : result.diagnostics().at(0).code;
}

bool checked(const std::string& typed) {
  const auto result = id_from(typed);
  return result.ok() && result->checked;
}

/// The first id with this stem whose check character is `check`, from `first` on.
MotorId with_check_being(const std::string& stem, char check, int first = 1) {
  for (int number = first; number <= loopledger::kMotorNumberMax; ++number) {
    if (check_character(MotorId{stem, number}) == check) {
      return {stem, number};
    }
  }
  FAIL("no such id");
  return {};
}

}  // namespace

TEST_CASE("an id is read in any case, with or without hyphens, check and leading zeros") {
  const MotorId th1{"TH", 1};
  const std::string check(1, check_character(th1));
  for (const std::string typed :
       {"th1", "TH1", "th01", "TH-01", "th-1", "th-001", "th0001", " th1 ", "th–01"}) {
    CHECK(read(typed) == th1);
    CHECK_FALSE(checked(typed));
  }
  for (const std::string& typed : {"TH-01-" + check, "th-1-" + check, "TH01" + check, "th1" + check,
                                   "TH-01" + check, "TH01-" + check}) {
    CHECK(read(typed) == th1);
    CHECK(checked(typed));
  }
  CHECK(with_check(th1) == "TH-01-" + check);
}

TEST_CASE("stems may hold digits; without a hyphen the digits at the end are the number") {
  CHECK(read("F1D-03") == MotorId{"F1D", 3});
  CHECK(read("f1d03") == MotorId{"F1D", 3});
  CHECK(read("f1-03") == MotorId{"F1", 3});
  CHECK(read("f103") == MotorId{"F", 103});
  CHECK(read("7-03") == MotorId{"7", 3});
  CHECK(code("703") == "id-form");
}

TEST_CASE("behind the hyphen O is 0, and I and L are 1") {
  CHECK(read("TH-O1") == MotorId{"TH", 1});
  CHECK(read("th-ol") == MotorId{"TH", 1});
  CHECK(read("TH-1O") == MotorId{"TH", 10});
  CHECK(read("TO-O2") == MotorId{"TO", 2});
  const std::string check(1, check_character(MotorId{"TH", 1}));
  CHECK(checked("TH-OI-" + check));
}

TEST_CASE("where the check is O or I, 0 and 1 are accepted") {
  const MotorId o = with_check_being("TH", 'O');
  const MotorId i = with_check_being("TH", 'I');
  CHECK(read(printed(o) + "-O") == o);
  CHECK(read(printed(o) + "-0") == o);
  CHECK(checked(printed(o) + "-O"));
  CHECK_FALSE(checked(printed(o) + "-0"));
  CHECK(read(printed(i) + "-1") == i);
  CHECK(code(printed(o) + "-1") == "id-check");
}

TEST_CASE("a last digit that could be the check is an error only for the printed form") {
  const MotorId seven = with_check_being("TH", '7');
  REQUIRE(seven.number < 100);
  const std::string id = printed(seven);
  const std::string bare = id.substr(0, 2) + id.substr(3);
  if (seven.number < 10) {
    CHECK(code(bare + "7") == "id-form");
    CHECK(id_from(bare + "7").diagnostics().at(0).hint.find(with_check(seven)) !=
          std::string::npos);
  }
  CHECK(code(bare + "-7") == "id-form");
  CHECK(read(id + "-7") == seven);
  CHECK(checked(id + "-7"));
  CHECK(read("th123") == MotorId{"TH", 123});
  CHECK(read("th-9999") == MotorId{"TH", 9999});
}

TEST_CASE("a wrong check is an error that names the ids one slip away") {
  const MotorId th12{"TH", 12};
  const std::string right = with_check(th12);
  std::string swapped = right;
  std::swap(swapped[3], swapped[4]);
  const auto result = id_from(swapped);
  REQUIRE_FALSE(result.ok());
  CHECK(result.diagnostics().at(0).code == "id-check");
  CHECK(result.diagnostics().at(0).message ==
        "the check character of \"" + swapped + "\" does not fit the id");
  CHECK(result.diagnostics().at(0).hint.find(right) != std::string::npos);
  const auto near = ids_one_slip_away(swapped);
  REQUIRE(near.size() >= 2);
  CHECK(near[0] == MotorId{"TH", 21});
  CHECK(near[1] == th12);
}

TEST_CASE("every single wrong character names the id that was meant") {
  const std::string right = with_check(MotorId{"F1D", 27});
  for (std::size_t i = 0; i < right.size(); ++i) {
    for (const char c : kAlphabet) {
      std::string typed = right;
      if (typed[i] == '-' || typed[i] == c) {
        continue;
      }
      typed[i] = c;
      if (code(typed) != "id-check") {
        continue;
      }
      const auto near = ids_one_slip_away(typed);
      CHECK_MESSAGE(std::find(near.begin(), near.end(), MotorId{"F1D", 27}) != near.end(), typed);
    }
  }
}

TEST_CASE("what is no id says so and quotes what was typed, harmlessly") {
  for (const std::string typed :
       {"", "-", "th", "TH-", "-01", "th--1", "th-0", "TH-00", "th-10000", "th-99999999999",
        "ABCDEFGHI-01", "th 1", "th_1", "th.1", "a-b-c-d", "TH-01-KK", "../x-1", "tü-1"}) {
    CHECK_MESSAGE(code(typed) == "id-form", typed);
  }
  const auto result = id_from("\x1b[2Jx");
  REQUIRE_FALSE(result.ok());
  CHECK(result.diagnostics().at(0).message ==
        R"(expected a motor id such as "TH-01" or "th1", found "\x1b[2Jx")");
  CHECK(id_from(std::string(100000, 'a')).diagnostics().at(0).message.size() < 200);
}
