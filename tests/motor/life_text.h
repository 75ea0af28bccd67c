// SPDX-License-Identifier: MIT
//
// A life as readable lines, what differs between two readings of it, and the shortest life in which
// something still does.
#pragma once

#include <functional>
#include <string>

#include "motor/now.h"
#include "records/entry.h"

namespace loopledger::test {

/// One line an entry: its kind and fields as a record has them, "UNSOUND" behind a hand-edited one.
[[nodiscard]] std::string life_text(const records::Record& record);

/// What two readings of the same record say differently, a line each; empty: nothing.
[[nodiscard]] std::string differences(const motor::Now& a, const motor::Now& b);

/// The record without all entries that can be left out while `fails` holds. @pre fails(record)
[[nodiscard]] records::Record shortest(records::Record record,
                                       const std::function<bool(const records::Record&)>& fails);

}  // namespace loopledger::test
