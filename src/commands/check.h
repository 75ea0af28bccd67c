// SPDX-License-Identifier: MIT
//
// `check PLAN`: the figures of a plan; writes nothing.
#pragma once

#include <string>

#include "base/diagnostic.h"
#include "calc/figures.h"
#include "commands/world.h"
#include "plan/plan.h"

namespace loopledger::commands {

struct CheckRequest {
  std::string plan;             ///< a path, or "-" for standard input
  bool short_of_strip = false;  ///< go on with what can be cut when the pieces don't reach
};

struct CheckAnswer {
  plan::Plan plan;    ///< empty when it can't be read
  calc::Batch batch;  ///< empty when it can't be worked out
  Diagnostics said;
};

/// Errors: those of load_plan, calc::work_out, check_names and check_batch, all that can be found.
[[nodiscard]] CheckAnswer check(const CheckRequest& request, World& world);

}  // namespace loopledger::commands
