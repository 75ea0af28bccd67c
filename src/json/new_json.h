// SPDX-License-Identifier: MIT
//
// `new --json`.
#pragma once

#include "commands/new_plan.h"
#include "json/json.h"

namespace loopledger::json {

[[nodiscard]] Json to_json(const commands::NewPlanAnswer& answer);

}  // namespace loopledger::json
