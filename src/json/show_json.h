// SPDX-License-Identifier: MIT
//
// `show --json`.
#pragma once

#include "commands/show.h"
#include "json/json.h"

namespace loopledger::json {

[[nodiscard]] Json to_json(const commands::ShowAnswer& answer);

}  // namespace loopledger::json
