// SPDX-License-Identifier: MIT
//
// `bench PLAN`: opens the dialogue at the scale over the plan's motors that have a record.
#pragma once

#include <optional>
#include <string>

#include "base/diagnostic.h"
#include "base/quantity_text.h"
#include "commands/bench_dialogue.h"
#include "commands/world.h"

namespace loopledger::commands {

struct BenchRequest {
  std::string plan;
  std::string winder_ratio;
  std::string records;         ///< empty: as records_folder() says
  std::optional<Units> units;  ///< empty: the plan's
  bool long_help = false;      ///< `?` may take several lines
};

struct BenchAnswer {
  std::optional<BenchDialogue> dialogue;  ///< empty: there are errors
  Diagnostics said;
};

/// Errors: usage-value (standard input can't be the plan), those of load_plan, Ledger::holding and
/// todays_winder_ratio, none-record. @pre world outlives the dialogue
[[nodiscard]] BenchAnswer bench(const BenchRequest& request, World& world);

}  // namespace loopledger::commands
