// SPDX-License-Identifier: MIT
//
// How much strip a motor takes, against a seeded simulation: its own strip is no mean of the
// samples'. Demo data, invented.
#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "calc/linear_density.h"
#include "calc/plan_motor.h"
#include "calc/turns_torque.h"
#include "support/small_plan.h"

using namespace loopledger;
using test::given;

namespace {

constexpr double kGramPerMetre = 2.4;
constexpr double kScatterMg = 6;

/// A strip with so many samples of 400 to 800 mm, each off the line by itself.
plan::Strip scattered(int samples, std::mt19937& engine) {
  std::normal_distribution<double> off(0, kScatterMg);
  plan::Strip strip;
  strip.name = "sport";
  for (int i = 0; i < samples; ++i) {
    const double mm = 400 + 400.0 * i / std::max(samples - 1, 1);
    strip.samples.push_back({Length::mm(mm), Mass::mg(kGramPerMetre * mm + off(engine)), {}});
  }
  return strip;
}

plan::Plan plan_with(plan::Strip strip) {
  plan::Plan plan = test::small_plan(std::move(strip));
  plan.bench.scale_step = given(Mass::mg(0.1));
  plan.bench.scale_error = given(Mass::mg(0.1));
  plan.bench.ruler_step = given(Length::mm(0.1));
  plan.motors[0].mass = given(Mass::g(1.4));
  return plan;
}

records::Planned motor_of(const plan::Plan& plan) {
  auto motor =
      calc::plan_motor(plan, plan.motors[0], calc::linear_density(plan.strips[0], plan.bench));
  REQUIRE(motor.ok());
  return *motor;
}

}  // namespace

TEST_CASE("\"cut ± 95 %\" holds a motor's own strip 95 times in 100, with three samples or ten") {
  std::mt19937 engine(95);
  std::normal_distribution<double> off(0, kScatterMg);
  for (const int samples : {2, 3, 5, 10}) {
    CAPTURE(samples);
    constexpr int kNights = 5000;
    int held = 0;
    for (int i = 0; i < kNights; ++i) {
      const plan::Plan plan = plan_with(scattered(samples, engine));
      const auto density = calc::linear_density(plan.strips[0], plan.bench);
      const Length stays = Mass::mg(1400) / density.value;
      const Length half = calc::strip_half_width(plan.strips[0], plan.bench, density, stays);
      const double takes = (1400 - off(engine)) / kGramPerMetre;  // mm of its own strip
      held += std::fabs(takes - stays.in_mm()) <= half.in_mm() ? 1 : 0;
    }
    CHECK(held * 100.0 / kNights == doctest::Approx(95).epsilon(0.011));
  }
}

TEST_CASE("the default allowance covers that interval in whole millimetres; a given one stays") {
  plan::Strip uneven = test::weighed_strip(Length::mm(500), Mass::g(1.190));
  uneven.samples.push_back({Length::mm(600), Mass::g(1.455), {}});
  uneven.samples.push_back({Length::mm(700), Mass::g(1.675), {}});
  plan::Plan plan = plan_with(uneven);
  plan.motors[0].allowance = plan::MotorGroup{}.allowance;
  const records::Planned p = motor_of(plan);
  const double half = p.cut_u.in_mm() * calc::coverage_95();
  REQUIRE(half > 10);
  CHECK(p.allowance.in_mm() == doctest::Approx(std::ceil(half)));
  CHECK(p.cut >= p.stays + p.allowance);
  plan.motors[0].allowance = given(Length::mm(4));
  CHECK(motor_of(plan).allowance == Length::mm(4));
  // Even samples need no more than the usual 10 mm.
  plan.strips[0].samples = {{Length::mm(500), Mass::g(1.2), {}},
                            {Length::mm(600), Mass::g(1.44), {}},
                            {Length::mm(700), Mass::g(1.68), {}}};
  plan.motors[0].allowance = plan::MotorGroup{}.allowance;
  CHECK(motor_of(plan).allowance == Length::mm(10));
}
