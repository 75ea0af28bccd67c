// SPDX-License-Identifier: MIT
//
// Records as text, in the format of records/format.h. Only new files and single lines are written:
// an existing record is never put out anew.
#pragma once

#include <string>
#include <string_view>

#include "base/motor_id.h"
#include "base/result.h"
#include "records/entry.h"
#include "records/planned.h"

namespace loopledger::records {

/// A motor for which a record is to be opened. `check` is its check character.
struct NewRecord {
  MotorId id;
  char check = '?';
  Planned planned;
};

/// The whole text of a new record, without entries. Ends in a line end.
[[nodiscard]] std::string new_record_text(const NewRecord& record);

/// One entry as a line, its sum and line end on it. Errors: record-kind (Kind::other is never
/// written), record-key, record-missing (a needed field), record-long.
[[nodiscard]] Result<std::string> entry_line(const Entry& entry);

/// Whether two entries say the same, whatever their keys, and however their quantities were typed.
[[nodiscard]] bool says_the_same(Entry a, Entry b);

/// `body` with its sum and line end: what makes a hand-edited line sound.
[[nodiscard]] std::string summed_line(std::string_view body);

}  // namespace loopledger::records
