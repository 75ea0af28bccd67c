// SPDX-License-Identifier: MIT
#include "base/quantity.h"

#include <doctest/doctest.h>

#include <limits>
#include <numbers>

using namespace loopledger;
using doctest::Approx;

TEST_CASE("a quantity reads back what was put in through its own door") {
  CHECK(Length::mm(12.5).in_mm() == Approx(12.5));
  CHECK(Length::in(12).in_mm() == Approx(304.8));
  CHECK(Mass::oz(1).in_g() == Approx(28.349523125));
  CHECK(Mass::mg(1500).in_g() == Approx(1.5));
  CHECK(Torque::gf_cm(1).in_mnm() == Approx(0.0980665));
  CHECK(Torque::ozf_in(0.9).in_ozf_in() == Approx(0.9));
  CHECK(Duration::h(1.5).in_min() == Approx(90));
  CHECK(Share::percent(95).as_ratio() == Approx(0.95));
  CHECK(Pressure::mpa(0.6).in_si() == Approx(600000));
  CHECK(Temperature::deg_c(-3).in_deg_c() == Approx(-3));
}

TEST_CASE("quantities of one kind add, scale, compare and divide to a number") {
  CHECK((Length::mm(300) + Length::mm(16)).in_mm() == Approx(316));
  CHECK((Length::mm(300) - Length::mm(16)).in_mm() == Approx(284));
  CHECK((-Mass::g(1)).in_g() == Approx(-1));
  CHECK((2 * Length::mm(3) * 2 / 3).in_mm() == Approx(4));
  CHECK(Length::in(1) / Length::mm(1) == Approx(25.4));
  CHECK(Mass::g(1.5) < Mass::g(1.501));
  CHECK(Mass::g(1.5) == Mass::g(1.5));
  Mass sum = Mass::g(1);
  sum += Mass::mg(500);
  sum -= Mass::mg(100);
  CHECK(sum.in_mg() == Approx(1400));
}

TEST_CASE("the products that are written out have the right unit") {
  CHECK((LinearDensity::g_per_m(2.4) * Length::mm(500)).in_g() == Approx(1.2));
  CHECK((Length::mm(500) * LinearDensity::g_per_m(2.4)).in_g() == Approx(1.2));
  CHECK((Mass::g(1.2) / LinearDensity::g_per_m(2.4)).in_mm() == Approx(500));
  CHECK((Mass::g(1.2) / Length::mm(500)).in_g_per_m() == Approx(2.4));
  CHECK((Length::mm(3) * Length::mm(1)).in_mm2() == Approx(3));
  CHECK((Area::mm2(3) * Density::g_per_cm3(0.93)).in_g_per_m() == Approx(2.79));
  CHECK((LinearDensity::g_per_m(2.79) / Density::g_per_cm3(0.93)).in_mm2() == Approx(3));
  CHECK(sqrt(Area::mm2(9)).in_mm() == Approx(3));
  CHECK((Mass::g(1.5) * Share::percent(2)).in_mg() == Approx(30));
}

TEST_CASE("the work of one turn is 2 pi times the torque") {
  CHECK(work(Torque::mnm(1000), Turns::of(1)).in_joule() == Approx(2 * std::numbers::pi));
}

TEST_CASE("a quantity tells whether it is finite") {
  CHECK(Length::mm(1).finite());
  CHECK_FALSE(Length::mm(std::numeric_limits<double>::infinity()).finite());
  CHECK_FALSE((Mass::g(0) / Length::mm(0)).finite());
}
