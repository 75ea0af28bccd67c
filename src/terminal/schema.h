// SPDX-License-Identifier: MIT
//
// What a plan may say, for the manual; for editors see json/plan_schema.h.
#pragma once

#include <string>

namespace loopledger::terminal {

/// A heading and a table of keys for each table of a plan.
[[nodiscard]] std::string plan_keys_markdown();

}  // namespace loopledger::terminal
