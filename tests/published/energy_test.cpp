// SPDX-License-Identifier: MIT
//
// Energy that good rubber returned in published strip tests: 3,000 to 4,800 ft.lbf/lb (read).
#include <doctest/doctest.h>

#include "base/quantity_text.h"
#include "calc/energy.h"
#include "support/printed.h"

using namespace loopledger;
using test::printed;

TEST_CASE("computed: published energies of 3,000 to 4,800 ft.lbf/lb are 9.0 to 14.3 kJ/kg") {
  // ft.lbf/lb is the work of one pound-force over a foot, for each pound: 12 lbf.in / 1 lb.
  const double joule_per_kg = torque_from("12 lbf.in")->in_si() / Mass::oz(16).in_si();
  CHECK(joule_per_kg == printed("2.98906692"));
  CHECK(3000 * joule_per_kg / 1000 == printed("9.0"));
  CHECK(4800 * joule_per_kg / 1000 == printed("14.3"));
  // The program's own bounds are these.
  CHECK(calc::kGoodEnergyLow.in_si() == doctest::Approx(3000 * joule_per_kg).epsilon(1e-8));
  CHECK(calc::kGoodEnergyHigh.in_si() == doctest::Approx(4800 * joule_per_kg).epsilon(1e-8));
}

TEST_CASE("energy let out by the defaults lies in the published range of strip tests") {
  // 1.5 g of rubber of 0.93 g/cm3, 300 mm long, all of it in the strands.
  const Area section = Area::mm2(1500 / 0.93 / 300);
  const Estimate<Energy> energy = calc::largest_energy({calc::kTurnsFactor, calc::kTurnsFactorU},
                                                       {calc::kTorqueFactor, calc::kTorqueFactorU},
                                                       Length::mm(300), section, 0);
  const SpecificEnergy each = energy.value / Mass::g(1.5);
  CHECK(each > calc::kGoodEnergyLow);
  CHECK(each < calc::kGoodEnergyHigh);
  CHECK(each.in_joule_per_g() == printed("9.1"));  // computed
  // Whatever the motor's size: energy goes with the rubber alone.
  const Energy other = calc::largest_energy({calc::kTurnsFactor, 0.08}, {calc::kTorqueFactor, 0.25},
                                            Length::mm(500), section * 4, 0)
                           .value;
  CHECK((other / (Mass::g(1.5) * (4 * 500.0 / 300))).in_si() == doctest::Approx(each.in_si()));
}
