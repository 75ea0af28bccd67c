// SPDX-License-Identifier: MIT
#include "calc/plan_motor.h"

#include <doctest/doctest.h>

#include "calc/linear_density.h"
#include "calc/turns_torque.h"
#include "support/full_motor.h"

using namespace loopledger;
using doctest::Approx;
using test::given;

namespace {

/// 2 g/m strip, 1 mg scale, no knot.
plan::Plan plain() { return test::small_plan(test::weighed_strip(Length::m(1), Mass::g(2))); }

Result<records::Planned> planned(const plan::Plan& plan) {
  return calc::plan_motor(plan, plan.motors[0], calc::linear_density(plan.strips[0], plan.bench));
}

std::string first_fault(const plan::Plan& plan) {
  const auto p = planned(plan);
  REQUIRE_FALSE(p.ok());
  return p.diagnostics().front().code + ": " + p.diagnostics().front().message;
}

}  // namespace

TEST_CASE("mass alone gives the loop, loop alone gives the mass, and they agree") {
  plan::Plan plan = plain();
  plan.motors[0].knot = given(Length::mm(16));
  plan.motors[0].mass = given(Mass::g(1.2));
  const records::Planned by_mass = *planned(plan);
  CHECK(by_mass.stays.in_mm() == Approx(600));
  CHECK(by_mass.loop.in_mm() == Approx(292));
  plan.motors[0].mass = {};
  plan.motors[0].loop = given(by_mass.loop);
  const records::Planned by_loop = *planned(plan);
  CHECK(by_loop.aim.in_g() == Approx(1.2));
  CHECK(by_loop.cut_u == Length{});
  CHECK(by_mass.cut_u > Length{});
}

TEST_CASE("both give the width to slit, and the slit strip's section and turns") {
  plan::Plan plan = plain();
  plan.strips[0].width = given(Length::mm(3));
  plan.motors[0].loop = given(Length::mm(400));
  plan.motors[0].mass = given(Mass::g(0.8));
  const records::Planned p = *planned(plan);
  CHECK(p.slit);
  CHECK(p.width->in_mm() == Approx(1.5));
  CHECK(p.linear_density.value.in_g_per_m() == Approx(1.0));
  CHECK(p.section.in_mm2() == Approx(2 * 1.0 / 0.93));
}

TEST_CASE("slitting needs a width, and can't make strip wider") {
  plan::Plan plan = plain();
  plan.motors[0].loop = given(Length::mm(400));
  plan.motors[0].mass = given(Mass::g(2));
  CHECK(
      first_fault(plan) ==
      "slit-width: mass and loop are both given, so strip \"sport\" has to be slit, but its width "
      "is not known");
  plan.strips[0].width = given(Length::mm(3));
  CHECK(
      first_fault(plan) ==
      "slit-width: a loop of 400 mm with 2 g needs strip 3.75 mm wide, and strip \"sport\" is only "
      "3 mm: 0.75 mm short");
}

TEST_CASE("a limit smaller than the rings says which number stands in the way and by how much") {
  plan::Plan plan =
      test::full_plan({.rubber = true, .lubricant = true, .rings = true}, Weighed::fresh);
  plan.rules[0].limit = given(Mass::mg(10));
  const std::string fault = first_fault(plan);
  CHECK(fault.starts_with(
      "rule-limit: rule \"event\": the limit of 0.01 g leaves nothing for rubber"));
  CHECK_MESSAGE(fault.find("take 6.2 mg more") != std::string::npos, fault);  // 14 + 2.204 - 10
}

TEST_CASE("a window narrower than the scale's step is empty, and says so") {
  plan::Plan plan = plain();
  plan.motors[0].mass = given(Mass::g(1.2004));
  plan.motors[0].window = given(Mass::mg(0.5));
  CHECK(first_fault(plan) ==
        "window-empty: the window at the stage washed is empty: its lower end 1.201 g is over its "
        "upper end 1.200 g by 1 mg");
}

TEST_CASE("a motor far too heavy for its rule is told as that") {
  plan::Plan plan =
      test::full_plan({.rubber = true, .lubricant = false, .rings = false}, Weighed::fresh);
  plan.motors[0].mass_is_limit = false;
  plan.motors[0].mass = given(Mass::g(1.9));
  const std::string fault = first_fault(plan);
  CHECK_MESSAGE(fault.starts_with("window-empty: too heavy for rule \"event\": 1.900 g of washed "
                                  "rubber, but at the stage washed the scale may read at most 1.4"),
                fault);
}

TEST_CASE("a given mass takes half the window to each side, capped by the limit") {
  plan::Plan plan = test::full_plan(test::kRubberAndOil, Weighed::fresh);
  plan.motors[0].mass_is_limit = false;
  plan.motors[0].mass = given(Mass::g(1.40));
  const records::Planned p = *planned(plan);
  CHECK(p.aim == Mass::g(1.40));
  CHECK(p.windows.of(Stage::washed).low->in_mg() == Approx(1399));
  CHECK(p.windows.of(Stage::washed).high->in_mg() == Approx(1401));
  plan.motors[0].mass = given(Mass::g(1.470));
  CHECK(planned(plan)->windows.of(Stage::washed).high->in_mg() == Approx(1470));
  plan.motors[0].mass = given(Mass::g(1.472));
  const auto over = planned(plan);
  REQUIRE_FALSE(over.ok());  // 1470.5 to 1470.99: no reading lies between
  CHECK(over.diagnostics().front().code == "window-empty");
}

TEST_CASE("an aim over the limit's window is warned about") {
  plan::Plan plan = test::full_plan(test::kRubberAndOil, Weighed::fresh);
  plan.motors[0].mass_is_limit = false;
  plan.motors[0].mass = given(Mass::g(1.4714));
  const auto p = planned(plan);
  REQUIRE(p.ok());
  REQUIRE(p.diagnostics().size() == 1);
  CHECK(p.diagnostics().front().code == "aim-over");
}

TEST_CASE("too little rubber for the knot is an error") {
  plan::Plan plan = plain();
  plan.motors[0].knot = given(Length::mm(16));
  plan.motors[0].mass = given(Mass::mg(20));
  CHECK(first_fault(plan).starts_with("loop-none: 0.02 g of this strip is 10 mm long"));
}

TEST_CASE("wind to is 0.80 of the estimate, or the 2 % risk of a lot that is known") {
  plan::Plan plan = plain();
  plan.motors[0].loop = given(Length::mm(300));
  const records::Planned p = *planned(plan);
  CHECK(p.wind_to / p.turns_max.value == Approx(0.80));
  CHECK(p.turns_max.value.count() == Approx(11.0 * 300 / std::sqrt(4 / 0.93)));
  plan.strips[0].turns_factor = given(Uncertain<double>{11.0, 0.55});
  const records::Planned fitted = *planned(plan);
  CHECK(fitted.turns_factor_fitted);
  const double u = std::hypot(0.05, (p.linear_density.u / p.linear_density.value) / 2);
  CHECK(fitted.wind_to / fitted.turns_max.value == Approx(std::exp(-2.0537489 * u)).epsilon(1e-6));
  CHECK(fitted.wind_to < records::do_not_pass(fitted));
}

TEST_CASE("wind to never passes do not pass, however unsure the strip is") {
  plan::Plan plan = plain();
  plan.motors[0].loop = given(Length::mm(300));
  plan.strips[0].turns_factor = given(Uncertain<double>{11.0, 3.0});
  const records::Planned p = *planned(plan);
  CHECK(p.wind_to <= records::do_not_pass(p));
}

TEST_CASE("a part motor has the full motor's torque and its share of the turns; no limit applies") {
  plan::Plan plan = plain();
  plan.motors[0].knot = given(Length::mm(16));
  plan.motors[0].loop = given(Length::mm(400));
  plan.motors[0].hooks = given(Length::mm(260));
  const records::Planned full = *planned(plan);
  plan.motors[0].part = given(0.5);
  const records::Planned half = *planned(plan);
  CHECK(half.loop.in_mm() == Approx(200));
  CHECK(half.aim.in_mg() == Approx(2 * 2 * 200 + 2 * 16));
  CHECK(half.spacer->in_mm() == Approx(130));
  CHECK((half.aim + *half.ballast).in_mg() == Approx(full.aim.in_mg()));
  CHECK(half.torque_max.value == full.torque_max.value);
  CHECK(half.turns_max.value / full.turns_max.value == Approx(0.5));
  CHECK_FALSE(half.rule.has_value());
}

TEST_CASE("doubling the strands halves the loop and divides the turns by 2 sqrt 2") {
  plan::Plan plan = plain();
  plan.motors[0].mass = given(Mass::g(1.2));
  const records::Planned two = *planned(plan);
  plan.motors[0].strands = given(4);
  const records::Planned four = *planned(plan);
  CHECK(four.loop / two.loop == Approx(0.5));
  CHECK(two.turns_max.value / four.turns_max.value == Approx(2 * std::sqrt(2.0)));
  CHECK(four.torque_max.value / two.torque_max.value == Approx(2 * std::sqrt(2.0)));
}
