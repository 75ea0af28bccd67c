// SPDX-License-Identifier: MIT
//
// `log --json`.
#pragma once

#include "commands/log.h"
#include "commands/log_many.h"
#include "json/json.h"

namespace loopledger::json {

/// `id`, the new entry's `key`, `consequences` as they are printed.
[[nodiscard]] Json to_json(const commands::LogAnswer& answer);

/// How many were `stored`, and how many were `there` already.
[[nodiscard]] Json to_json(const commands::LogManyAnswer& answer);

}  // namespace loopledger::json
