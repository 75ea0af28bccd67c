// SPDX-License-Identifier: MIT
//
// `label --json`.
#pragma once

#include "commands/label.h"
#include "json/json.h"

namespace loopledger::json {

[[nodiscard]] Json to_json(const commands::LabelAnswer& answer);

}  // namespace loopledger::json
