// SPDX-License-Identifier: MIT
//
// `scan --json`.
#pragma once

#include "commands/scan.h"
#include "json/json.h"

namespace loopledger::json {

[[nodiscard]] Json to_json(const commands::ScanAnswer& answer);

}  // namespace loopledger::json
