// SPDX-License-Identifier: MIT
//
// Laws that hold for any motor, whatever the figures: how things scale, and which way they move.
// Plans are drawn from a seed.
#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <random>
#include <vector>

#include "calc/energy.h"
#include "calc/linear_density.h"
#include "calc/plan_motor.h"
#include "calc/weigh.h"
#include "support/full_motor.h"

using namespace loopledger;
using doctest::Approx;
using test::given;

namespace {

constexpr int kPlans = 200;
const std::vector<Stage> kWindowStages{Stage::washed, Stage::tied, Stage::finished};

/// A plan with everything on it, each figure drawn within what builders have.
plan::Plan drawn_plan(std::mt19937& engine) {
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine);
  };
  const auto coin = [&] { return between(0, 1) < 0.5; };
  Counts counts;
  counts.lubricant = coin();
  counts.rings = coin();
  counts.adhesive = coin();
  plan::Plan plan = test::full_plan(counts, coin() ? Weighed::fresh : Weighed::rested);
  plan.bench.scale_error = given(Mass::mg(between(0, 4)));
  plan.bench.confidence = given(Share::percent(between(80, 99)));
  plan.strips[0].samples[0].mass = Mass::g(between(0.8, 4));
  plan.strips[0].talc =
      given(Uncertain<Share>{Share::percent(between(0, 3)), Share::percent(between(0, 0.5))});
  plan.rings[0].spread = given(Mass::mg(between(0, 1)));
  plan.lubricants[0].uptake =
      given(Uncertain<Share>{Share::percent(between(0.6, 3)), Share::percent(between(0, 0.6))});
  plan.rules[0].limit = given(Mass::g(between(0.4, 10)));
  plan.motors[0].strands = given(2 * std::uniform_int_distribution<int>(1, 4)(engine));
  plan.motors[0].knot = given(Length::mm(between(0, 30)));
  plan.motors[0].tails = given(Length::mm(between(0, 60)));
  plan.motors[0].window = given(Mass::mg(between(3, 10)));
  return plan;
}

records::Planned motor_from(const plan::Plan& plan) {
  auto motor =
      calc::plan_motor(plan, plan.motors[0], calc::linear_density(plan.strips[0], plan.bench));
  CAPTURE(render(motor.diagnostics()));
  REQUIRE(motor.ok());
  return *motor;
}

/// Every drawn plan as it is, and after `change`.
void for_drawn_plans(
    const std::function<void(plan::Plan&)>& change,
    const std::function<void(const records::Planned&, const records::Planned&)>& holds) {
  std::mt19937 engine(20260214);
  for (int i = 0; i < kPlans; ++i) {
    plan::Plan plan = drawn_plan(engine);
    const records::Planned before = motor_from(plan);
    change(plan);
    holds(before, motor_from(plan));
  }
}

void set_loop(plan::Plan& plan, double mm) {
  plan.motors[0].mass_is_limit = false;
  plan.motors[0].loop = given(Length::mm(mm));
}

}  // namespace

TEST_CASE(
    "twice the loop: twice the turns and the energy, the same torque, strip but for the knot") {
  std::mt19937 engine(1);
  for (int i = 0; i < kPlans; ++i) {
    plan::Plan plan = drawn_plan(engine);
    plan.rules.clear();
    plan.motors[0].rule.reset();
    set_loop(plan, 200);
    const records::Planned one = motor_from(plan);
    set_loop(plan, 400);
    const records::Planned two = motor_from(plan);
    CHECK(two.turns_max.value / one.turns_max.value == Approx(2));
    CHECK(two.torque_max.value.in_si() == Approx(one.torque_max.value.in_si()));
    CHECK(calc::largest_energy(two).value / calc::largest_energy(one).value == Approx(2));
    CHECK((two.stays - two.knot) / (one.stays - one.knot) == Approx(2));
  }
}

TEST_CASE("twice the width, or twice the strands: turns by 1/sqrt 2, torque by 2 sqrt 2") {
  std::mt19937 engine(2);
  for (int i = 0; i < kPlans; ++i) {
    plan::Plan plan = drawn_plan(engine);
    plan.rules.clear();
    plan.motors[0].rule.reset();
    set_loop(plan, 300);
    const records::Planned one = motor_from(plan);
    plan::Plan wide = plan;
    wide.strips[0].samples[0].mass = plan.strips[0].samples[0].mass * 2;
    plan::Plan more = plan;
    more.motors[0].strands.value *= 2;
    for (const records::Planned& two : {motor_from(wide), motor_from(more)}) {
      CHECK(two.turns_max.value / one.turns_max.value == Approx(1 / std::sqrt(2.0)));
      CHECK(two.torque_max.value / one.torque_max.value == Approx(2 * std::sqrt(2.0)));
      CHECK(calc::largest_energy(two).value / calc::largest_energy(one).value == Approx(2));
    }
  }
}

TEST_CASE("every motor: windows in order, under the limit, and strip enough for all of it") {
  for_drawn_plans([](plan::Plan&) {},
                  [](const records::Planned& p, const records::Planned&) {
                    for (const Stage stage : kWindowStages) {
                      const records::Window w = calc::scale_window(p, stage);
                      REQUIRE(*w.low <= *w.high);
                      const calc::Counted c = calc::counted(p, stage, *w.high);
                      CHECK(c.mass < p.rule->limit);
                      CHECK(w.guard->in_si() > 0);
                    }
                    CHECK(*p.windows.of(Stage::tied).high >= *p.windows.of(Stage::washed).high);
                    CHECK(*p.windows.of(Stage::finished).high >= *p.windows.of(Stage::tied).high);
                    CHECK(p.cut >= p.stays + p.tails + p.allowance);
                    CHECK((p.linear_density.value * p.stays).in_si() == Approx(p.aim.in_si()));
                    CHECK((p.loop * p.strands + p.knot).in_si() == Approx(p.stays.in_si()));
                    CHECK(p.wind_to <= records::do_not_pass(p));
                  });
}

TEST_CASE("a higher confidence or a worse scale never allows more rubber") {
  for_drawn_plans([](plan::Plan& plan) { plan.bench.confidence = given(Share::percent(99.5)); },
                  [](const records::Planned& before, const records::Planned& after) {
                    CHECK(after.aim < before.aim);
                    CHECK(after.loop < before.loop);
                  });
  for_drawn_plans([](plan::Plan& plan) { plan.bench.scale_error.value += Mass::mg(3); },
                  [](const records::Planned& before, const records::Planned& after) {
                    CHECK(after.aim < before.aim);
                  });
}

TEST_CASE("a higher limit gives as much more rubber; rings that count take as much off") {
  for_drawn_plans([](plan::Plan& plan) { plan.rules[0].limit.value += Mass::mg(100); },
                  [](const records::Planned& before, const records::Planned& after) {
                    CHECK(after.aim > before.aim);
                    CHECK(after.aim - before.aim < Mass::mg(100.001));
                    CHECK(after.aim - before.aim > Mass::mg(95));
                  });
  for_drawn_plans([](plan::Plan& plan) { plan.rules[0].counts.value.rings = true; },
                  [](const records::Planned& before, const records::Planned& after) {
                    // Rubber that goes takes the oil that counts with it: at most some 5 %.
                    const Mass rings = before.rule->counts.rings ? Mass{} : after.rings.value;
                    CHECK(after.aim <= before.aim - rings / 1.05 + Mass::mg(1e-6));
                  });
}

TEST_CASE("more talc, longer tails or more allowance: a longer cut, and the same loop") {
  for_drawn_plans(
      [](plan::Plan& plan) {
        plan.motors[0].tails.value += Length::mm(20);
        plan.motors[0].allowance.value += Length::mm(5);
      },
      [](const records::Planned& before, const records::Planned& after) {
        CHECK(after.cut > before.cut);
        CHECK(after.loop.in_si() == Approx(before.loop.in_si()));
      });
  for_drawn_plans(
      [](plan::Plan& plan) { plan.strips[0].talc.value.value += Share::percent(5); },
      [](const records::Planned& before, const records::Planned& after) {
        CHECK(*after.windows.of(Stage::as_cut).low > *before.windows.of(Stage::as_cut).low);
        CHECK(*after.windows.about > *before.windows.about);
      });
}

TEST_CASE("a part motor: its share of loop and turns, the full torque, the masses add up") {
  for_drawn_plans([](plan::Plan& plan) { plan.motors[0].part = given(0.6); },
                  [](const records::Planned& full, const records::Planned& part) {
                    CHECK(part.loop / full.loop == Approx(0.6));
                    CHECK(part.turns_max.value / full.turns_max.value == Approx(0.6));
                    CHECK(part.torque_max.value == full.torque_max.value);
                    CHECK((part.aim + *part.ballast).in_si() == Approx(full.aim.in_si()));
                    CHECK_FALSE(part.rule.has_value());
                  });
}
