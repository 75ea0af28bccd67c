// SPDX-License-Identifier: MIT
//
// A whole record as `show` and `scan` show it: windows and readings, lengths, turns, torque, what
// happened, what to do next.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "cli/json.h"
#include "records/entry.h"

namespace loopledger::cli {

/// The record on one screen, ending in a line end; printable whatever the record holds.
[[nodiscard]] std::string record_text(const records::Record& record, Units units);

/// Its entries, a line each; "none yet" when there are none.
[[nodiscard]] std::string entries_text(const std::vector<records::Entry>& entries, Units units);

/// The object of `show --json`; `diagnostics` are those of reading the record.
[[nodiscard]] Json record_json(const records::Record& record, const Diagnostics& diagnostics);

}  // namespace loopledger::cli
