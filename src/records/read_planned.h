// SPDX-License-Identifier: MIT
//
// The head of a record read: format, id, check character and the figures as planned.
#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "records/entry.h"

namespace loopledger::records {

/// Fills id, check, planned and planned_unknown from the text before the entries. Errors:
/// record-head (no TOML), record-foreign (no record), record-format (a newer format), record-id,
/// record-value, record-missing.
[[nodiscard]] Result<Record> read_head(std::string_view head, const std::string& file);

}  // namespace loopledger::records
