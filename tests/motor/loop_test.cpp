// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "motor/now.h"

using namespace loopledger;
using doctest::Approx;

namespace {

/// Two strands of 2.5 g/m, u 0.5 %; 1 mg scale, 1 mm ruler, 16 mm knot.
records::Planned strip() {
  records::Planned p;
  p.strands = 2;
  p.linear_density = {LinearDensity::g_per_m(2.5), LinearDensity::g_per_m(0.0125)};
  p.knot = Length::mm(16);
  p.scale_step = Mass::mg(1);
  p.scale_error = Mass::mg(1);
  p.ruler_step = Length::mm(1);
  return p;
}

}  // namespace

TEST_CASE("the loop that washed rubber of a mass makes") {
  CHECK(motor::loop_of_mass(strip(), Mass::g(1.5)).in_mm() == Approx(292));  // (600 - 16) / 2
  CHECK(motor::loop_of_mass(strip(), Mass::mg(20)) == Length{});             // less than the knot
}

// By hand, in mm: linear density 600 x 0.005 / 2 = 1.5; scale sqrt(2/12 + 1/3) mg = 0.7071 mg, over
// 2.5 mg/mm and two strands 0.1414; ruler 1/sqrt(6) = 0.4082; root of the squares 1.5610. Three of
// it 4.683, half the knot on two strands 4, one percent of 292 is 2.92.
TEST_CASE("how far a loop may be from its mass before the two contradict each other") {
  CHECK(motor::loop_tolerance(strip(), Mass::g(1.5)).in_mm() == Approx(11.603).epsilon(1e-4));
}
