// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "motor/life_text.h"
#include "motor/now.h"
#include "motor/random_life.h"
#include "motor/slow_model.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

std::string told_apart(const records::Record& record) {
  return differences(motor::now_of(record), slow_now(record));
}

/// Lives of one seed; the first that is read in two ways is told as short as it can be made.
void check_lives(std::uint64_t seed, int lives) {
  Draw draw(seed);
  for (int i = 0; i < lives; ++i) {
    const records::Record record = random_life(draw);
    if (told_apart(record).empty()) {
      continue;
    }
    const auto least =
        shortest(record, [](const records::Record& r) { return !told_apart(r).empty(); });
    FAIL("seed " << seed << ", life " << i << ":\n"
                 << life_text(least) << "now_of, or the slow model:\n"
                 << told_apart(least));
  }
}

}  // namespace

TEST_CASE("random lives read as the slow model reads them, seed 1") { check_lives(1, 3400); }
TEST_CASE("random lives read as the slow model reads them, seed 2") { check_lives(2, 3400); }
TEST_CASE("random lives read as the slow model reads them, seed 3") { check_lives(3, 3400); }
