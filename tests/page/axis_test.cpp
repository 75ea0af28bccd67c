// SPDX-License-Identifier: MIT
#include "page/axis.h"

#include <doctest/doctest.h>

namespace {

using namespace loopledger;

std::string in_a_row(double top, int most) {
  std::string text;
  for (const page::Tick& tick : page::ticks_to(top, most)) {
    text += (text.empty() ? "" : " ") + tick.text;
  }
  return text;
}

TEST_CASE("ticks are round, from 0 to the top, and no more than asked for") {
  CHECK(in_a_row(1300, 6) == "0 500 1000");
  CHECK(in_a_row(1000, 5) == "0 200 400 600 800 1000");
  CHECK(in_a_row(43.5, 6) == "0 10 20 30 40");
  CHECK(in_a_row(0.6, 6) == "0.0 0.1 0.2 0.3 0.4 0.5 0.6");
  CHECK(in_a_row(0.061, 4) == "0.00 0.02 0.04 0.06");
  CHECK(in_a_row(9.9, 1) == "0");
  for (double top = 0.01; top < 1e5; top *= 1.07) {
    CAPTURE(top);
    const auto ticks = page::ticks_to(top, 6);
    CHECK(ticks.size() >= 3);
    CHECK(ticks.size() <= 7);
    CHECK(ticks.back().value <= top * 1.000001);
  }
}

}  // namespace
