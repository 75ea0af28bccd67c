// SPDX-License-Identifier: MIT
//
// `list --json`.
#pragma once

#include "commands/list.h"
#include "json/json.h"

namespace loopledger::json {

[[nodiscard]] Json to_json(const commands::ListAnswer& answer);

}  // namespace loopledger::json
