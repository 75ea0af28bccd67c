// SPDX-License-Identifier: MIT
//
// `fit --json`.
#pragma once

#include "commands/fit.h"
#include "json/json.h"

namespace loopledger::json {

[[nodiscard]] Json to_json(const commands::FitAnswer& answer);

}  // namespace loopledger::json
