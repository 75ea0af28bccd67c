// SPDX-License-Identifier: MIT
//
// `sources --json`.
#pragma once

#include "commands/sources.h"
#include "json/json.h"

namespace loopledger::json {

[[nodiscard]] Json to_json(const commands::SourcesAnswer& answer);

}  // namespace loopledger::json
