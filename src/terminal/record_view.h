// SPDX-License-Identifier: MIT
//
// A whole record as `show` and `scan` show it: windows and readings, lengths, turns, torque, what
// happened, what to do next.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "motor/advice.h"
#include "records/entry.h"

namespace loopledger::terminal {

/// How a record is shown.
struct RecordView {
  Units units = Units::metric;
  motor::Today today;
  bool all = false;  ///< all entries, not only the newest
};

/// The record on one screen, what to do next first, ending in a line end; printable whatever the
/// record holds.
[[nodiscard]] std::string record_text(const records::Record& record, const RecordView& view);

/// Whose motor it is and what to do next, for a list of several; printable.
[[nodiscard]] std::string record_summary(const records::Record& record, const RecordView& view);

/// Its entries, a line each, in the file's order: the last `most` of them; "none yet" when there
/// are none.
[[nodiscard]] std::string entries_text(const std::vector<records::Entry>& entries, Units units,
                                       std::size_t most);

}  // namespace loopledger::terminal
