// SPDX-License-Identifier: MIT
//
// The first motor of a plan worked out, for tests of single figures.
#pragma once

#include <doctest/doctest.h>

#include "calc/linear_density.h"
#include "calc/plan_motor.h"

namespace loopledger::test {

inline records::Planned first_motor(const plan::Plan& plan) {
  const plan::MotorGroup& group = plan.motors[0];
  auto motor =
      calc::plan_motor(plan, group, calc::linear_density(plan.strips[group.strip], plan.bench));
  CAPTURE(render(motor.diagnostics()));
  REQUIRE(motor.ok());
  return *motor;
}

}  // namespace loopledger::test
