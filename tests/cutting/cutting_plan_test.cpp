// SPDX-License-Identifier: MIT
#include "cutting/cutting_plan.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>

using namespace loopledger;
using cutting::CuttingTask;
using doctest::Approx;

namespace {

/// Motors of these lengths, pieces of these lengths, in mm.
CuttingTask task(const std::vector<double>& motors, const std::vector<double>& pieces,
                 double keep_mm, double ends_mm = 0) {
  CuttingTask t;
  for (const double piece : pieces) {
    t.pieces.push_back({Length::mm(piece), Length::mm(ends_mm)});
  }
  for (const double motor : motors) {
    t.cut.emplace_back(pieces.size(), Length::mm(motor));
  }
  t.keep = Length::mm(keep_mm);
  return t;
}

}  // namespace

TEST_CASE("a piece is filled without scrap when its motors add up to it") {
  const CuttingTask t = task({600, 500, 400, 300, 200}, {1000, 1000}, 150);
  const auto plan = cutting::make_cutting_plan(t);
  for (const auto& piece : plan.piece_of) {
    CHECK(piece.has_value());
  }
  CHECK(plan.scrap.in_mm() == Approx(0));
}

TEST_CASE("the end of a touched piece is lost once") {
  const CuttingTask t = task({300, 300}, {1000, 1000}, 100, 5);
  const auto left = cutting::remnants(t, cutting::make_cutting_plan(t));
  CHECK(left[0].in_mm() == Approx(395));
  CHECK(left[1].in_mm() == Approx(1000));
}

TEST_CASE("nothing left is no scrap, a remnant under `keep` is") {
  CHECK(cutting::make_cutting_plan(task({500, 500}, {1000}, 400)).scrap == Length{});
  CHECK(cutting::make_cutting_plan(task({500, 400}, {1000}, 400)).scrap.in_mm() == Approx(100));
  CHECK(cutting::make_cutting_plan(task({500}, {1000}, 400)).scrap == Length{});
}

TEST_CASE("pieces too short cut the most motors and leave out the last of the plan") {
  const auto plan = cutting::make_cutting_plan(task({400, 400, 400}, {900}, 100));
  CHECK(plan.piece_of[0].has_value());
  CHECK(plan.piece_of[1].has_value());
  CHECK_FALSE(plan.piece_of[2].has_value());
}

TEST_CASE("the best plan is proven, aim by aim") {
  const auto plan = cutting::make_cutting_plan(task({500, 400}, {1000}, 400));
  CHECK(plan.proven);
  CHECK(plan.aims_proven == cutting::kCuttingAims);
  CHECK(plan.gap == Length{});
}

TEST_CASE("a number of motors that the effort did not settle is not proven the most") {
  // Each piece is the sum of three motors and a hundredth of a millimetre.
  const CuttingTask t = task({501.13, 397.19, 377.31, 322.79, 225.49, 176.08},
                             {501.13 + 322.79 + 176.09, 397.19 + 377.31 + 225.50}, 100);
  const auto cut = [](const cutting::CuttingResult& plan) {
    return std::ranges::count_if(plan.piece_of, [](const auto& piece) { return bool{piece}; });
  };
  const auto all = cutting::make_cutting_plan(t);
  CHECK(cut(all) == 6);
  CHECK(all.aims_proven >= 1);
  const auto hasty = cutting::make_cutting_plan(t, 8);
  CHECK(cut(hasty) == 5);
  CHECK(hasty.aims_proven == 0);
  CHECK(hasty.motors_gap == 1);
}

TEST_CASE("random nights: no piece gives up more than it has, and the same night gives the same") {
  std::mt19937 random(20260205);
  for (int night = 0; night < 40; ++night) {
    std::vector<double> motors;
    std::vector<double> pieces;
    for (unsigned i = 0; i < 1 + random() % 60; ++i) {
      motors.push_back(150 + static_cast<double>(random() % 1150));
    }
    for (unsigned i = 0; i < 1 + random() % 12; ++i) {
      pieces.push_back(300 + static_cast<double>(random() % 4700));
    }
    const CuttingTask t = task(motors, pieces, 250, 5);
    const auto plan = cutting::make_cutting_plan(t);
    for (const Length left : cutting::remnants(t, plan)) {
      CHECK(left > Length::mm(-0.001));
    }
    CHECK(cutting::make_cutting_plan(t).piece_of == plan.piece_of);
  }
}
