// SPDX-License-Identifier: MIT
//
// The calculator's front door: a plan in, figures for every motor and the cutting plan out. Pure:
// the same plan gives the same figures. Start here to see how a batch is worked out.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/motor_id.h"
#include "base/result.h"
#include "calc/figures.h"
#include "cutting/cutting_plan.h"
#include "plan/plan.h"

namespace loopledger::calc {

struct WorkOptions {
  bool short_of_strip = false;  ///< `--short`: print what can be cut when the pieces don't reach
  std::optional<std::vector<MotorId>> only = std::nullopt;  ///< these motors of the plan, not all
  bool choices = false;  ///< groups without a size give choices; else they are errors
  std::int64_t cutting_effort = cutting::kCuttingEffort;  ///< steps of each strip's search
};

/// All that can be found wrong comes back in one go, each with its place in the plan. Errors:
/// those of plan_motor.h; `pieces-short`, which names the shortfall and the best that can be cut;
/// `motor-size`.
[[nodiscard]] Result<Batch> work_out(const plan::Plan& plan, const WorkOptions& options = {});

/// The batch without the motors that no piece reaches, for all that is told of those that are made.
[[nodiscard]] Batch cut_tonight(const Batch& batch);

}  // namespace loopledger::calc
