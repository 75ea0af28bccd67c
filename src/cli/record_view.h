// SPDX-License-Identifier: MIT
//
// One motor's record as `show` prints it, shared with `scan`. Defined in show.cpp.
#pragma once

#include <string>

#include "base/diagnostic.h"
#include "base/quantity_text.h"
#include "cli/json.h"
#include "records/entry.h"

namespace loopledger::cli {

/// What is known of the motor, its entries, and what to do next. Always printable.
[[nodiscard]] std::string record_text(const records::Record& record, Units units);

/// The object of `show --json`.
[[nodiscard]] Json record_json(const records::Record& record, const Diagnostics& diagnostics);

}  // namespace loopledger::cli
