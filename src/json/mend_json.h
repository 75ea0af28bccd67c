// SPDX-License-Identifier: MIT
//
// `mend --json`.
#pragma once

#include "commands/mend.h"
#include "json/json.h"

namespace loopledger::json {

[[nodiscard]] Json to_json(const commands::MendAnswer& answer);

}  // namespace loopledger::json
