// SPDX-License-Identifier: MIT
#include "calc/energy.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "calc/curve.h"
#include "calc/linear_density.h"
#include "calc/plan_motor.h"
#include "support/small_plan.h"

using namespace loopledger;
using doctest::Approx;
using test::given;

namespace {

constexpr calc::Factor<double> kTurns{11.0, 0.08};
constexpr calc::Factor<Pressure> kTorque{Pressure::mpa(0.6), 0.25};

records::Planned small_motor() {
  plan::Plan plan = test::small_plan(test::section_strip(Length::mm(2.4), Length::mm(1.05)));
  plan.motors[0].mass = given(Mass::g(1.5));
  auto motor =
      calc::plan_motor(plan, plan.motors[0], calc::linear_density(plan.strips[0], plan.bench));
  REQUIRE(motor.ok());
  return *motor;
}

}  // namespace

TEST_CASE("the energy of a motor as planned is that under its default curve") {
  const records::Planned p = small_motor();
  const Estimate<Energy> energy = calc::largest_energy(p);
  CHECK(energy.value.in_joule() ==
        Approx(calc::planned_energy(p, p.turns_max.value).in_joule()).epsilon(1e-12));
  CHECK(calc::planned_energy(p, p.wind_to) < energy.value);
  CHECK(energy.low < energy.value);
  CHECK(energy.high > energy.value);
}

TEST_CASE("its interval holds 95 of 100 motors drawn with the same uncertainties") {
  // Drawn: both factors log-normal, the linear density (to which the section goes) normal.
  constexpr double kLambdaU = 0.02;
  const Area section = Area::mm2(5);
  const Length loop = Length::mm(300);
  const Estimate<Energy> energy = calc::largest_energy(kTurns, kTorque, loop, section, kLambdaU);
  std::mt19937 engine(31);
  std::normal_distribution<double> normal;
  constexpr int kMotors = 20000;
  int inside = 0;
  for (int i = 0; i < kMotors; ++i) {
    const double k_n = kTurns.value * std::exp(kTurns.relative_u * normal(engine));
    const Pressure k_q = kTorque.value * std::exp(kTorque.relative_u * normal(engine));
    const Area a = section * (1 + kLambdaU * normal(engine));
    const Turns n = Turns::of(k_n * (loop / sqrt(a)));
    const Torque q = Torque::si(k_q.in_si() * std::pow(a.in_si(), 1.5));
    const Energy drawn = calc::TorqueCurve::by_default(n, q).energy_below(n);
    inside += drawn >= energy.low && drawn <= energy.high ? 1 : 0;
  }
  CHECK(std::fabs(inside / double{kMotors} - 0.95) < 0.005);
}

TEST_CASE("energy goes with the length and with the section, whatever the strands are") {
  const auto energy = [](Length loop, Area section) {
    return calc::largest_energy(kTurns, kTorque, loop, section, 0).value.in_joule();
  };
  const double one = energy(Length::mm(300), Area::mm2(5));
  CHECK(energy(Length::mm(600), Area::mm2(5)) == Approx(2 * one));
  CHECK(energy(Length::mm(300), Area::mm2(10)) == Approx(2 * one));
  CHECK(energy(Length::mm(150), Area::mm2(10)) == Approx(one));
}

TEST_CASE("a share of what good rubber returns lies between its best and its least") {
  const calc::GoodShare share = calc::share_of_good(calc::kGoodEnergyLow);
  CHECK(share.of_least.as_ratio() == Approx(1));
  CHECK(share.of_best.as_ratio() == Approx(3000.0 / 4800));
}
