// SPDX-License-Identifier: MIT
//
// `check --json`; keys as the manual says, null where not known.
#pragma once

#include "commands/check.h"
#include "json/json.h"

namespace loopledger::json {

[[nodiscard]] Json to_json(const commands::CheckAnswer& answer);

}  // namespace loopledger::json
