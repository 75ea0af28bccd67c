// SPDX-License-Identifier: MIT
//
// The cutting plan against every possible plan, and what must hold of any night.
#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>
#include <random>

#include "support/every_cut.h"

using namespace loopledger;
using test::SmallNight;

namespace {

void check_best(const SmallNight& night) {
  const auto plan = cutting::make_cutting_plan(test::task_of(night));
  const auto aims = test::aims_of(night, plan);
  CAPTURE(night.pieces.size());
  CAPTURE(night.cut.size());
  CAPTURE(night.keep);
  REQUIRE(aims.has_value());
  CHECK(plan.proven);
  CHECK(*aims == test::best_of_every_cut(night));
  CHECK(plan.scrap.in_mm() == doctest::Approx(-std::get<2>(*aims)));
  CHECK(plan.touched == static_cast<std::size_t>(-std::get<3>(*aims)));
  CHECK(plan.longest.in_mm() == doctest::Approx(std::get<4>(*aims)));
}

/// Motors by digits: every multiset of `count` lengths from 2 to 5, in rising and falling order.
void check_family(const std::vector<int>& pieces, std::size_t count, int keep, int ends) {
  std::vector<int> lengths(count, 2);
  for (bool more = true; more;) {
    SmallNight night{pieces, ends, keep, {}};
    for (const int length : lengths) {
      night.cut.emplace_back(pieces.size(), length);
    }
    check_best(night);
    std::ranges::reverse(night.cut);
    check_best(night);
    more = false;
    for (std::size_t i = 0; i < count && !more; ++i) {
      if (lengths[i] < 5) {
        ++lengths[i];
        std::fill_n(lengths.begin(), i, lengths[i]);
        more = true;
      }
    }
  }
}

SmallNight random_night(std::mt19937& random, bool own_density) {
  SmallNight night;
  const auto one_to = [&](unsigned most) { return 1 + static_cast<int>(random() % most); };
  const int longest = 1 + one_to(14);
  const int pieces = one_to(3);
  const int motors = one_to(6);
  night.ends = one_to(3) - 1;
  night.keep = one_to(12) - 1;
  for (int p = 0; p < pieces; ++p) {
    night.pieces.push_back(one_to(static_cast<unsigned>(6 + 2 * longest)));
  }
  for (int m = 0; m < motors; ++m) {
    if (m > 0 && random() % 3 == 0) {
      night.cut.push_back(night.cut.back());
      continue;
    }
    const int length = one_to(static_cast<unsigned>(longest));
    night.cut.emplace_back(night.pieces.size(), length);
    for (int& own : night.cut.back()) {
      own = own_density ? std::max(1, length - 1 + static_cast<int>(random() % 3)) : length;
    }
  }
  return night;
}

/// A night of the size that is met, in whole mm.
cutting::CuttingTask big_night(std::mt19937& random, std::size_t motors, std::size_t pieces) {
  SmallNight night;
  for (std::size_t p = 0; p < pieces; ++p) {
    night.pieces.push_back(300 + static_cast<int>(random() % 4700));
  }
  std::vector<int> lengths;
  for (int k = 0; k < 15; ++k) {
    lengths.push_back(150 + static_cast<int>(random() % 1151));
  }
  for (std::size_t m = 0; m < motors; ++m) {
    night.cut.emplace_back(pieces, lengths[random() % lengths.size()]);
  }
  night.keep = 250;
  night.ends = 5;
  return test::task_of(night);
}

}  // namespace

TEST_CASE("cutting: the best of every possible plan, whole small families") {
  for (const int keep : {0, 2, 4}) {
    check_family({7}, 3, keep, 0);
    check_family({9, 6}, 4, keep, 0);
    check_family({8, 8}, 4, keep, 1);
    check_family({9, 7, 4}, 5, keep, 0);
  }
}

TEST_CASE("cutting: the best of every possible plan, seeded nights") {
  std::mt19937 random(20260205);
  for (int i = 0; i < 1500; ++i) {
    check_best(random_night(random, false));
  }
}

TEST_CASE("cutting: the best of every possible plan, pieces of their own density") {
  std::mt19937 random(20260206);
  for (int i = 0; i < 1500; ++i) {
    check_best(random_night(random, true));
  }
}

TEST_CASE("cutting: another piece never costs a motor") {
  std::mt19937 random(11);
  for (int i = 0; i < 300; ++i) {
    SmallNight night = random_night(random, false);
    const auto before = test::aims_of(night, cutting::make_cutting_plan(test::task_of(night)));
    night.pieces.push_back(1 + static_cast<int>(random() % 20));
    for (auto& row : night.cut) {
      row.push_back(row.front());
    }
    const auto after = test::aims_of(night, cutting::make_cutting_plan(test::task_of(night)));
    CHECK(std::get<0>(*after) >= std::get<0>(*before));
    CHECK((std::get<0>(*after) > std::get<0>(*before) ||
           std::get<1>(*after) >= std::get<1>(*before)));
  }
}

TEST_CASE("cutting: the order of pieces and of equal motors changes no aim") {
  std::mt19937 random(12);
  for (int i = 0; i < 300; ++i) {
    SmallNight night = random_night(random, false);
    const auto before = cutting::make_cutting_plan(test::task_of(night));
    std::ranges::shuffle(night.pieces, random);
    const auto after = cutting::make_cutting_plan(test::task_of(night));
    CHECK(after.scrap == before.scrap);
    CHECK(after.touched == before.touched);
    CHECK(after.longest == before.longest);
  }
}

TEST_CASE("cutting: big nights hold their pieces, repeat, and say how far they may be off") {
  std::mt19937 random(13);
  for (int i = 0; i < 6; ++i) {
    const auto task = big_night(random, 40, 8);
    constexpr std::int64_t kLittle = 400'000;
    const auto plan = cutting::make_cutting_plan(task, kLittle);
    for (const Length left : cutting::remnants(task, plan)) {
      CHECK(left > Length::mm(-1e-9));
    }
    CHECK(plan.gap >= Length{});
    CHECK(plan.longest_gap >= Length{});
    CHECK(plan.touched_gap <= plan.touched);
    CHECK(cutting::make_cutting_plan(task, kLittle).piece_of == plan.piece_of);
    // What ten times the effort finds is within what was said.
    const auto more = cutting::make_cutting_plan(task, 10 * kLittle);
    if (plan.aims_proven >= 1) {
      CHECK(more.scrap <= plan.scrap);
      CHECK(more.scrap >= plan.scrap - plan.gap);
    }
    if (plan.proven) {
      CHECK(more.proven);
      CHECK(more.scrap == plan.scrap);
      CHECK(more.touched == plan.touched);
      CHECK(more.longest == plan.longest);
    }
  }
}
