// SPDX-License-Identifier: MIT
//
// `new PLAN`: a short commented plan that works as it stands, and names its schema for editors.
#pragma once

#include <string>

#include "base/diagnostic.h"
#include "commands/world.h"

namespace loopledger::commands {

struct NewPlanRequest {
  std::string path;  ///< "-": nothing is written, the text is what is wanted
};

struct NewPlanAnswer {
  std::string text;  ///< the plan
  std::string file;  ///< where it was written; empty: nowhere
  Diagnostics said;
};

/// Errors: disk-exists when anything is at that path, which stays as it is; those of writing.
[[nodiscard]] NewPlanAnswer new_plan(const NewPlanRequest& request, World& world);

}  // namespace loopledger::commands
