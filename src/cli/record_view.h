// SPDX-License-Identifier: MIT
//
// A whole record as `show` and `scan` show it: windows and readings, lengths, turns, torque, what
// happened, what to do next.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "cli/advice.h"
#include "cli/json.h"
#include "records/entry.h"

namespace loopledger::cli {

/// How a record is shown.
struct RecordView {
  Units units = Units::metric;
  Today today;
  bool all = false;  ///< all entries, not only the newest
};

/// The record on one screen, what to do next first, ending in a line end; printable whatever the
/// record holds.
[[nodiscard]] std::string record_text(const records::Record& record, const RecordView& view);

/// Whose motor it is and what to do next, for a list of several; printable.
[[nodiscard]] std::string record_summary(const records::Record& record, const RecordView& view);

/// Said wherever such figures are shown.
inline constexpr const char* kPlannedEdited =
    "The figures as planned were changed by hand or damaged: don't rely on them.";

/// "2 strands of amber, lot 24/03, 2.40 mm wide". Not made printable.
[[nodiscard]] std::string strip_words(const records::Planned& planned, Units units);

/// "part motor, 0.5 of the full length: spacer 120 mm of 0.612 g; its full motor takes 2 times the
/// turns at the same torque"; and the room on the hooks. Only what there is.
[[nodiscard]] std::vector<std::string> part_and_hooks(const records::Planned& planned, Units units);

/// Its entries, a line each, in the file's order: the last `most` of them; "none yet" when there
/// are none.
[[nodiscard]] std::string entries_text(const std::vector<records::Entry>& entries, Units units,
                                       std::size_t most);

/// The object of `show --json`; `diagnostics` are those of reading the record.
[[nodiscard]] Json record_json(const records::Record& record, const Today& today,
                               const Diagnostics& diagnostics);

}  // namespace loopledger::cli
