// SPDX-License-Identifier: MIT
//
// One entry's line read. Kinds and fields that this version doesn't know are kept as they stand; a
// field whose value can't be understood is kept the same way and never taken for a figure.
#pragma once

#include <string>

#include "base/result.h"
#include "records/entry.h"
#include "records/lines.h"

namespace loopledger::records {

/// An entry, perhaps with warnings about its fields (record-field); or one warning
/// (record-line: the line is no entry) and no value. `file` is for the places.
[[nodiscard]] Result<Entry> read_entry(const Line& line, const std::string& file);

}  // namespace loopledger::records
