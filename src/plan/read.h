// SPDX-License-Identifier: MIT
//
// A plan's text -> plan::Plan. Start here to see how a plan is read: the shelf files that it takes
// are merged, every key is checked, references are resolved and defaults filled in. All faults come
// back in one go. Pure: shelf and template texts come through `Sources`.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "plan/plan.h"

namespace loopledger::plan {

struct Loaded {
  std::string file;  ///< as it should stand in messages
  std::string text;
};

/// Where other files come from. A failed load's diagnostics are shown at the place that asked.
struct Sources {
  /// A shelf file, by its path relative to the plan.
  std::function<Result<Loaded>(const std::string& path)> shelf;
  /// A template such as ("rules", "fai-f1d").
  std::function<Result<Loaded>(const std::string& folder, const std::string& name)> from_templates;
};

inline constexpr int kMaxMotors = 10000;  ///< in one plan

/// Reads the plan. Error codes: those of plan/tree.h and base/quantity_text.h, and plan-format,
/// plan-key, plan-missing, plan-type, plan-bounds, plan-text, plan-name, plan-twice, plan-take,
/// plan-value.
[[nodiscard]] Result<Plan> read_plan(std::string_view text, const std::string& file,
                                     const Sources& sources);

}  // namespace loopledger::plan
