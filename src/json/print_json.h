// SPDX-License-Identifier: MIT
//
// `print --json`, with and without --test-page.
#pragma once

#include "commands/print.h"
#include "commands/test_page.h"
#include "json/json.h"

namespace loopledger::json {

[[nodiscard]] Json to_json(const commands::PrintAnswer& answer);
[[nodiscard]] Json to_json(const commands::TestPageAnswer& answer);

}  // namespace loopledger::json
