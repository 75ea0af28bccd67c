// SPDX-License-Identifier: MIT
//
// The shelf after the night: what is listed, what it weighs, and what it would still give.
#include "calc/cut_after.h"

#include <doctest/doctest.h>

#include <random>

#include "support/every_cut.h"

using namespace loopledger;
using doctest::Approx;

TEST_CASE("after the night: remnants shrink, scrap and used-up pieces are gone, the rest stays") {
  // 500 + 495 leave nothing of a; 600 leave 395 of b; 300 leave 45 of c; d is not touched.
  cutting::CuttingTask task = test::task_of({{1000, 1000, 350, 200}, 5, 100, {}});
  for (const double length : {500.0, 495.0, 600.0, 300.0}) {
    task.cut.emplace_back(4, Length::mm(length));
  }
  cutting::CuttingResult result;
  result.piece_of = {0, 0, 1, 2};
  const auto after = calc::shelf_after(task, result,
                                       {{"a", Length::mm(1000), std::nullopt},
                                        {"b", Length::mm(1000), Mass::g(2.4)},
                                        {"c", Length::mm(350), std::nullopt},
                                        {"d", Length::mm(200), Mass::g(0.5)}});
  REQUIRE(after.size() == 2);
  CHECK(after[0].tag == "b");
  CHECK(after[0].length.in_mm() == Approx(395));
  REQUIRE(after[0].mass.has_value());
  CHECK(after[0].mass->in_g() == Approx(2.4 * 0.395));
  CHECK(after[1].tag == "d");
  CHECK(after[1].length.in_mm() == Approx(200));
  CHECK(after[1].mass->in_g() == Approx(0.5));
}

TEST_CASE("after the night: a remnant just long enough to keep is listed") {
  const cutting::CuttingTask task = test::task_of({{1000}, 0, 400, {{600}}});
  cutting::CuttingResult result;
  result.piece_of = {0};
  CHECK(calc::shelf_after(task, result, {{"a", Length::mm(1000), std::nullopt}}).size() == 1);
}

TEST_CASE("how many more: whole motors of each kind, a piece's end lost once") {
  const cutting::CuttingTask task = test::task_of({{1000, 604}, 5, 100, {{500, 500}, {200, 200}}});
  cutting::CuttingResult result;
  result.piece_of = {0, std::nullopt};
  // 495 are left of the first; 599 can be cut from the second.
  CHECK(calc::how_many_more(task, result) == std::vector<std::size_t>{1, 2 + 2});
}

TEST_CASE("how many more: so many can be cut besides, and not one more") {
  std::mt19937 random(21);
  for (int i = 0; i < 100; ++i) {
    const int length = 2 + static_cast<int>(random() % 6);
    const int piece = 10 + static_cast<int>(random() % 10);
    test::SmallNight night{{piece, piece + 3}, 1, 2, {{3, 3}, {length, length}}};
    const auto result = cutting::make_cutting_plan(test::task_of(night));
    const std::size_t more = calc::how_many_more(test::task_of(night), result)[1];
    // What the plan left, as pieces that lose no end any more.
    test::SmallNight rest{{}, 0, 0, {}};
    const auto left = cutting::remnants(test::task_of(night), result);
    for (std::size_t p = 0; p < 2; ++p) {
      const bool touched = result.piece_of[0] == p || result.piece_of[1] == p;
      rest.pieces.push_back(static_cast<int>(std::lround(left[p].in_mm())) - (touched ? 0 : 1));
    }
    rest.cut.assign(more, {length, length});
    const auto fits = [&] {
      const auto pieces = cutting::make_cutting_plan(test::task_of(rest)).piece_of;
      return std::ranges::all_of(pieces, [](const auto& p) { return p.has_value(); });
    };
    CHECK(fits());
    rest.cut.push_back({length, length});
    CHECK_FALSE(fits());
  }
}
