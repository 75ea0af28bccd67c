// SPDX-License-Identifier: MIT
//
// A plan and all that hangs from it, read from disk: shelf files beside the plan, rules, recipes
// and stock from the templates.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.h"
#include "commands/world.h"
#include "plan/label_layout.h"
#include "plan/plan.h"
#include "plan/read.h"
#include "plan/stock.h"

namespace loopledger::commands {

struct PlanInput {
  plan::Plan plan;
  std::vector<plan::Loaded> files;  ///< the plan and its shelves, for quoting lines
};

/// Reads the plan ("-": standard input, shelf files then from the current folder).
[[nodiscard]] Result<PlanInput> load_plan(const std::string& path, World& world);

/// Gives later diagnostics that point into the plan or its shelves their source line.
void quote_lines(const PlanInput& input, Diagnostics& diagnostics);

/// A stock by its name in templates/stock, or by a path (one that ends in .toml, beside the plan).
/// `asked` is where the plan named it.
[[nodiscard]] Result<plan::Stock> load_stock(const std::string& name, const std::string& plan_path,
                                             const Place& asked, World& world);

/// A label's layout by its name in templates/layouts, or by a path as for a stock.
[[nodiscard]] Result<plan::LabelLayout> load_layout(const std::string& name,
                                                    const std::string& plan_path,
                                                    const Place& asked, World& world);

}  // namespace loopledger::commands
