// SPDX-License-Identifier: MIT
#include "calc/error_parts.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

using namespace loopledger;
using calc::ErrorParts;
using doctest::Approx;

TEST_CASE("a guard band and a probability are each other's reverse, whatever the parts") {
  std::mt19937 engine(3);
  std::uniform_real_distribution<double> width(0, 4);
  for (int i = 0; i < 300; ++i) {
    ErrorParts parts;
    for (int k = 0; k < i % 7; ++k) {
      parts.add_rectangular(Mass::mg(std::pow(10, -width(engine))));
    }
    if (i % 3 != 0) {
      parts.add_normal(Mass::mg(std::pow(10, -width(engine))));
    }
    for (const double percent : {1.0, 50.0, 90.0, 95.0, 99.0, 99.9, 99.99}) {
      if (parts.u() > Mass{}) {
        const Mass guard = parts.guard(Share::percent(percent));
        CHECK(parts.share_below(guard).in_percent() == Approx(percent).epsilon(1e-6));
        CHECK(parts.share_below(guard * -1).in_percent() == Approx(100 - percent).epsilon(1e-4));
      }
    }
  }
}

TEST_CASE("a fine step against the error needs less than k u at 99.9 %, and more at 90 %") {
  ErrorParts parts;
  parts.add_rectangular(Mass::mg(2));
  parts.add_steps(Mass::mg(0.1));
  const double u = parts.u().in_mg();
  CHECK(parts.guard(Share::percent(99.9)).in_mg() < 0.6 * 3.0902 * u);
  CHECK(parts.guard(Share::percent(90)).in_mg() > 1.05 * 1.2816 * u);
  CHECK(parts.guard(Share::percent(99.99)).in_mg() < 2.1);
}

TEST_CASE("no error at all needs no guard") {
  const ErrorParts none;
  CHECK(none.guard(Share::percent(95)) == Mass{});
  ErrorParts some;
  some.add_normal(Mass::mg(1));
  for (const double damaged : {0.0, -5.0, 100.0, 1e9}) {
    CHECK(some.guard(Share::percent(damaged)).finite());
  }
  CHECK(none.share_below(Mass{}).as_ratio() == 1);
  CHECK(none.share_below(Mass::mg(-1)).as_ratio() == 0);
}

TEST_CASE("a check weight narrows the scale's error to what both allow") {
  const auto narrowed = [](double read_mg) {
    return calc::narrowed_by_check(Mass::mg(3), Mass::mg(1), Mass::g(1), Mass::mg(read_mg));
  };
  const auto spot_on = narrowed(1000);
  REQUIRE(spot_on.has_value());
  CHECK(spot_on->offset.in_mg() == Approx(0));
  CHECK(spot_on->half_width.in_mg() == Approx(1));
  CHECK(spot_on->u.in_mg() == Approx(1 / std::sqrt(3.0)));
  const auto near_its_end = narrowed(1003);  // the error is 2 to 3 mg
  CHECK(near_its_end->offset.in_mg() == Approx(2.5));
  CHECK(near_its_end->half_width.in_mg() == Approx(0.5));
  CHECK_FALSE(narrowed(1005).has_value());  // worse than the plan says
  // The weight itself is only so good.
  const auto rough =
      calc::narrowed_by_check(Mass::mg(3), Mass::mg(1), Mass::g(1), Mass::g(1), Mass::mg(1));
  CHECK(rough->half_width.in_mg() == Approx(2));
}

TEST_CASE("the narrowed error holds the scale's true one, simulated") {
  std::mt19937 engine(8);
  std::uniform_real_distribution<double> even(-1, 1);
  for (int i = 0; i < 20000; ++i) {
    const double error = 3 * even(engine);
    const double read = 1000 + error + 0.5 * even(engine) + 0.5 * even(engine);
    const auto left = calc::narrowed_by_check(Mass::mg(3), Mass::mg(1), Mass::g(1), Mass::mg(read));
    REQUIRE(left.has_value());
    CHECK(std::fabs(error - left->offset.in_mg()) <= left->half_width.in_mg() + 1e-9);
  }
}
