// SPDX-License-Identifier: MIT
//
// Textbook cases of cutting stock. They count stock used, so they are put to the search behind the
// cutting plan (cutting::pack) as: can all be cut from so many pieces? With the published
// number yes, with one less proven no (but for csp-100, see there). A bigger shelf with `keep` = 0
// (nothing is scrap) must then touch just as many, by the third aim, where it is small enough to
// ask.
//   csp-110  the example data of the AMPL book's cutting chapter: stock 110, 47 pieces
//   csp-100  Chvatal, Linear Programming, 1983, chapter 13: stock 100, 453 pieces (from memory; the
//            number was worked out again)
//   csp-40, csp-17  no publication: worked out, and proven here again
//   csp-569  stock of 5, 6 and 9 at 6, 7 and 10; the least cost is 170: the duals 2, 3, 5 of
//   lengths
//            2, 3, 4 price no stock above its cost and the demand at 2*20 + 3*10 + 5*20 = 170
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <vector>

#include "cutting/cut_aims.h"
#include "cutting/cutting_plan.h"

using namespace loopledger;
using cutting::Verdict;

namespace {

struct Demand {
  int length;
  int count;
};

cutting::Problem shelf_problem(const std::vector<int>& stock, const std::vector<Demand>& demand) {
  cutting::Problem problem;
  for (const int length : stock) {
    problem.whole.push_back(length);
    problem.room.push_back(length);
  }
  std::vector<Demand> longest_first = demand;
  std::ranges::sort(longest_first, [](Demand a, Demand b) { return a.length > b.length; });
  for (const Demand& d : longest_first) {
    problem.need.emplace_back(stock.size(), d.length);
    problem.count.push_back(d.count);
  }
  return problem;
}

Verdict can_be_cut(const std::vector<int>& stock, const std::vector<Demand>& demand) {
  const auto problem = shelf_problem(stock, demand);
  cutting::Effort effort{20'000'000};
  return cutting::pack(problem, cutting::limits_of(problem), effort).verdict;
}

std::vector<int> equal_pieces(int count, int length) {
  return std::vector<int>(static_cast<std::size_t>(count), length);
}

cutting::CuttingResult from_shelf(int pieces, int length, const std::vector<Demand>& demand) {
  cutting::CuttingTask task;
  for (int i = 0; i < pieces; ++i) {
    task.pieces.push_back({Length::mm(length), Length{}});
  }
  for (const Demand& d : demand) {
    for (int i = 0; i < d.count; ++i) {
      task.cut.emplace_back(task.pieces.size(), Length::mm(d.length));
    }
  }
  return cutting::make_cutting_plan(task);
}

const std::vector<Demand> kDemand110{{20, 48}, {45, 35}, {50, 24}, {55, 10}, {75, 8}};
const std::vector<Demand> kDemand40{{8, 90}, {12, 111}, {16, 55}, {20, 30}};
const std::vector<Demand> kDemand100{{45, 97}, {36, 610}, {31, 395}, {14, 211}};
const std::vector<Demand> kDemand17{{3, 25}, {5, 20}, {9, 15}};

}  // namespace

TEST_CASE("csp-110: 47 pieces, and the third aim finds them") {
  CHECK(can_be_cut(equal_pieces(47, 110), kDemand110) == Verdict::found);
  CHECK(can_be_cut(equal_pieces(46, 110), kDemand110) == Verdict::none);
  const auto plan = from_shelf(50, 110, kDemand110);
  CHECK(plan.touched == 47);
  CHECK(plan.touched_gap == 0);
}

TEST_CASE("csp-40: 89 pieces") {
  CHECK(can_be_cut(equal_pieces(89, 40), kDemand40) == Verdict::found);
  CHECK(can_be_cut(equal_pieces(88, 40), kDemand40) == Verdict::none);
}

// That 452 won't do is beyond a bound by sums (416); it takes the duals of a linear program, which
// a night of 60 motors does not need.
TEST_CASE("csp-100: 453 pieces are enough") {
  CHECK(can_be_cut(equal_pieces(453, 100), kDemand100) == Verdict::found);
}

TEST_CASE("csp-17: 19 pieces, and the third aim finds them") {
  CHECK(can_be_cut(equal_pieces(19, 17), kDemand17) == Verdict::found);
  CHECK(can_be_cut(equal_pieces(18, 17), kDemand17) == Verdict::none);
  const auto plan = from_shelf(21, 17, kDemand17);
  CHECK(plan.touched == 19);
  CHECK(plan.touched_gap == 0);
}

TEST_CASE("csp-569: no stock for less than 170 will do, some for 170 will") {
  const std::vector<Demand> demand{{2, 20}, {3, 10}, {4, 20}};
  const auto stock = [](int fives, int sixes, int nines) {
    std::vector<int> pieces = equal_pieces(fives, 5);
    pieces.insert(pieces.end(), static_cast<std::size_t>(sixes), 6);
    pieces.insert(pieces.end(), static_cast<std::size_t>(nines), 9);
    return pieces;
  };
  int enough = 0;
  for (int nines = 0; 10 * nines <= 170; ++nines) {
    for (int sixes = 0; 10 * nines + 7 * sixes <= 170; ++sixes) {
      const int fives = (170 - 10 * nines - 7 * sixes) / 6;
      const bool exact = 10 * nines + 7 * sixes + 6 * fives == 170;
      // The largest stock of less than 170 with so many nines and sixes.
      const int fewer = exact ? fives - 1 : fives;
      if (fewer >= 0) {
        CHECK(can_be_cut(stock(fewer, sixes, nines), demand) == Verdict::none);
      }
      if (exact && enough == 0) {
        enough += can_be_cut(stock(fives, sixes, nines), demand) == Verdict::found ? 1 : 0;
      }
    }
  }
  CHECK(enough == 1);
}
