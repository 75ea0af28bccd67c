// SPDX-License-Identifier: MIT
//
// Density of natural rubber: specific gravity 0.93 (Thermopedia, entry 1105, read) and 0.950 g/cm3
// (MatWeb, read). The first is the default; the second lies within the uncertainty that a strip
// without samples gets.
#include <doctest/doctest.h>

#include <cmath>

#include "calc/linear_density.h"
#include "support/printed.h"
#include "support/small_plan.h"

using namespace loopledger;
using test::printed;

TEST_CASE("Thermopedia: the default density is 0.93 g/cm3") {
  CHECK(plan::Strip{}.density.value.in_g_per_cm3() == printed("0.93"));
}

TEST_CASE("MatWeb: 0.950 g/cm3 lies well within the 5 % of a strip known by its section") {
  const plan::Plan plan = test::small_plan(test::section_strip(Length::mm(2.4), Length::mm(1.05)));
  const Uncertain<LinearDensity> lambda = calc::linear_density(plan.strips[0], plan.bench);
  CHECK(lambda.value.in_g_per_m() == printed("2.3436"));  // 2.4 x 1.05 x 0.93, computed
  const LinearDensity heavier = LinearDensity::g_per_m(2.4 * 1.05 * 0.950);
  CHECK(std::fabs((heavier - lambda.value) / lambda.u) < 1);
}
