// SPDX-License-Identifier: MIT
//
// Expected figures were computed apart from the program, by halving intervals on the formulas of
// the manual and integrating the errors' densities one by one, in another language.
#include "calc/weigh.h"

#include <doctest/doctest.h>

#include "calc/linear_density.h"
#include "calc/plan_motor.h"
#include "support/full_motor.h"

using namespace loopledger;
using doctest::Approx;

namespace {

records::Planned full_motor(Weighed weighed = Weighed::fresh, Counts counts = test::kRubberAndOil) {
  const plan::Plan plan = test::full_plan(counts, weighed);
  auto planned =
      calc::plan_motor(plan, plan.motors[0], calc::linear_density(plan.strips[0], plan.bench));
  REQUIRE_MESSAGE(planned.ok(), render(planned.diagnostics()));
  return *planned;
}

/// Of a washed motor they are on the scale.
Mass tails_of(const records::Planned& p) { return p.linear_density.value * p.tails; }

double upper_mg(const records::Planned& p, Stage stage) {
  return calc::upper_end(p, stage)->reading.in_mg();
}

}  // namespace

TEST_CASE("upper ends hang from the limit, and a later stage keeps what an earlier one knew") {
  const records::Planned p = full_motor();
  CHECK(upper_mg(p, Stage::washed) == Approx(1470.9912378).epsilon(1e-8));
  // Tied alone would allow 1486.4095: the washed end carried over is higher.
  CHECK(upper_mg(p, Stage::tied) == Approx(1486.4912378).epsilon(1e-8));
  CHECK(calc::upper_end(p, Stage::tied)->guard.in_mg() == Approx(9.8858761).epsilon(2e-6));
  // Finished with fresh lubricant counted: nothing is guessed any more, so it knows better.
  CHECK(upper_mg(p, Stage::finished) == Approx(1513.1365251).epsilon(1e-8));
  CHECK(calc::upper_end(p, Stage::finished)->guard.in_mg() == Approx(2.3634749).epsilon(2e-6));
}

TEST_CASE("weighed rested, fresh lubricant on the scale is taken off and what is left added") {
  const records::Planned p = full_motor(Weighed::rested);
  CHECK(upper_mg(p, Stage::washed) == Approx(1485.7977747).epsilon(1e-8));
  CHECK(upper_mg(p, Stage::finished) == Approx(1520.6131458).epsilon(1e-8));
}

TEST_CASE("windows are rounded inwards to the scale's step") {
  const records::Planned p = full_motor();
  CHECK(p.windows.of(Stage::washed).low->in_mg() == Approx(1468));
  CHECK(p.windows.of(Stage::washed).high->in_mg() == Approx(1470));
  CHECK(p.windows.of(Stage::tied).low->in_mg() == Approx(1484));      // 1483.4912
  CHECK(p.windows.of(Stage::tied).high->in_mg() == Approx(1486));     // 1486.4912
  CHECK(p.windows.of(Stage::finished).low->in_mg() == Approx(1503));  // 1502.5752
  CHECK(p.windows.of(Stage::finished).high->in_mg() == Approx(1513));
  CHECK(p.aim.in_mg() == Approx(1469.4912378).epsilon(1e-8));
}

TEST_CASE("as cut, the lower end allows for talc, twice its uncertainty, and the tails") {
  const records::Planned p = full_motor();
  CHECK(p.windows.of(Stage::as_cut).low->in_mg() == Approx(1541));  // 1540.2451 rounded up
  CHECK_FALSE(p.windows.of(Stage::as_cut).high.has_value());
  CHECK(p.cut.in_mm() == Approx(627.9619).epsilon(1e-6));
  CHECK(p.windows.about->in_g() == Approx(2.4575 * 0.6279619 / 0.991).epsilon(1e-6));
}

TEST_CASE("one milligram over the window says how much to snip, and never more than the loop") {
  const records::Planned p = full_motor();
  const calc::Judgement over = calc::judge(p, Stage::washed, Mass::mg(1534));
  CHECK(over.verdict == calc::Verdict::over);
  CHECK(over.over.in_mg() == Approx(14));  // 1520 with tails of 49.15 mg
  CHECK(over.trim.in_mm() == Approx(15.0 / 2.4575).epsilon(1e-6));
  const calc::Judgement wild = calc::judge(p, Stage::washed, Mass::g(50));
  CHECK(wild.trim == p.loop * 2);
}

TEST_CASE("a reading on the window's ends is good, one step outside is not") {
  const records::Planned p = full_motor();
  CHECK(calc::judge(p, Stage::washed, Mass::g(1.520)).verdict == calc::Verdict::ok);
  CHECK(calc::judge(p, Stage::washed, Mass::g(1.518)).verdict == calc::Verdict::ok);
  CHECK(calc::judge(p, Stage::washed, Mass::g(1.521)).verdict == calc::Verdict::over);
  const calc::Judgement light = calc::judge(p, Stage::washed, Mass::g(1.510));
  CHECK(light.verdict == calc::Verdict::light);
  CHECK(light.light.in_mg() == Approx(8));
  CHECK(light.trim == Length{});
}

TEST_CASE("a washed motor is weighed with its tails on: they are in the window and not counted") {
  const records::Planned p = full_motor();
  records::Planned bare = p;
  bare.tails = Length{};
  const records::Window window = calc::scale_window(p, Stage::washed);
  CHECK(window.low->in_mg() == Approx(1518));   // 1467.9912 + 49.15, less the guard for the tails
  CHECK(window.high->in_mg() == Approx(1520));  // 1470.9912 + 49.15
  CHECK(*window.guard > *p.windows.of(Stage::washed).guard);
  CHECK(calc::scale_window(p, Stage::tied) == p.windows.of(Stage::tied));
  CHECK(calc::scale_window(bare, Stage::washed) == p.windows.of(Stage::washed));
  const calc::Counted with = calc::counted(p, Stage::washed, Mass::g(1.469) + tails_of(p));
  const calc::Counted without = calc::counted(bare, Stage::washed, Mass::g(1.469));
  CHECK(with.mass.in_mg() == Approx(without.mass.in_mg()));
  CHECK(with.rubber.in_mg() == Approx(1469));
  CHECK(with.u > without.u);
}

TEST_CASE("what is not known of the tails lowers the window, and its width stays") {
  records::Planned p = full_motor();
  p.linear_density.u = p.linear_density.value * 0.05;  // tails of 49.15 ± 2.46 mg
  const records::Window window = calc::scale_window(p, Stage::washed);
  const calc::Counted top = calc::counted(p, Stage::washed, *window.high);
  CHECK(top.mass + top.u * calc::guard_factor(p.confidence) <= p.rule->limit);
  CHECK(*window.high < Mass::g(1.520));
  CHECK((*window.high - *window.low).in_mg() == Approx(2));
}

TEST_CASE("the probability at an unrounded upper end is the plan's confidence") {
  for (const Weighed weighed : {Weighed::fresh, Weighed::rested}) {
    records::Planned p = full_motor(weighed);
    p.tails = Length{};  // the upper end is without them
    const Mass end = calc::upper_end(p, Stage::washed)->reading;
    CHECK(calc::judge(p, Stage::washed, end).within->as_ratio() == Approx(0.95).epsilon(1e-6));
  }
}

TEST_CASE("a forgotten ring and a mistyped digit are told apart") {
  const records::Planned p = full_motor();
  const Mass washed = Mass::g(1.469) + tails_of(p);
  CHECK(calc::check_tying(p, washed, Mass::g(1.4845)).agrees);
  CHECK(calc::check_tying(p, washed, Mass::g(1.4775)).rings_missing == 1);
  CHECK(calc::check_tying(p, washed, Mass::g(1.4705)).rings_missing == 2);
  const calc::TyingCheck slip = calc::check_tying(p, washed, Mass::g(1.584));
  CHECK_FALSE(slip.agrees);
  CHECK(slip.rings_missing == 0);
  CHECK_FALSE(slip.tails_still_on);
  CHECK(calc::check_tying(p, washed, Mass::g(1.4845) + tails_of(p)).tails_still_on);
}

TEST_CASE("a value within 1e-9 of a step counts as on it") {
  const Mass step = Mass::mg(1);
  CHECK(calc::floor_to_step(Mass::g(1.5), step).in_mg() == Approx(1500));
  CHECK(calc::floor_to_step(Mass::mg(1499.9999999999), step).in_mg() == Approx(1500));
  CHECK(calc::floor_to_step(Mass::mg(1499.9999), step).in_mg() == Approx(1499));
  CHECK(calc::ceil_to_step(Mass::mg(1500.0001), step).in_mg() == Approx(1501));
}
