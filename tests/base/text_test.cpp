// SPDX-License-Identifier: MIT
#include "base/text.h"

#include <doctest/doctest.h>

#include <array>
#include <string>
#include <string_view>

using namespace loopledger;

TEST_CASE("edit distance finds the nearest known word, and none when nothing is near") {
  constexpr std::array<std::string_view, 6> kWords{"strands", "strip",  "window",
                                                   "mass",    "rested", "confidence"};
  CHECK(nearest("strnads", kWords) == "strands");
  CHECK(nearest("strans", kWords) == "strands");
  CHECK(nearest("Strip", kWords) == "strip");
  CHECK(nearest("strp", kWords) == "strip");
  CHECK(nearest("widnow", kWords) == "window");
  CHECK(nearest("amss", kWords) == "mass");
  CHECK(nearest("confidense", kWords) == "confidence");
  CHECK(nearest("colour", kWords).empty());
  CHECK(nearest("", kWords).empty());
  CHECK(nearest("xyzzy", kWords).empty());
  CHECK(nearest(std::string(100000, 's'), kWords).empty());
}

TEST_CASE("a list of words reads as a sentence part") {
  constexpr std::array<std::string_view, 3> kWords{"a", "b", "c"};
  CHECK(either(kWords) == "a, b or c");
  CHECK(either(std::span(kWords).first(2)) == "a or b");
  CHECK(either(std::span(kWords).first(1)) == "a");
  CHECK(either(std::span(kWords).first(0)).empty());
}

TEST_CASE("case and blanks are handled in ASCII only") {
  CHECK(lower_ascii("TH-01 ŁÓ") == "th-01 ŁÓ");
  CHECK(upper_ascii("th-01 łó") == "TH-01 łó");
  CHECK(trimmed("  a b \t\r\n") == "a b");
  CHECK(trimmed(" \n ").empty());
}
