// SPDX-License-Identifier: MIT
//
// Whether a record that is to be opened could be read again. A reader's bounds are for damage and
// for other people's files; a plan can come to figures beyond them, and a record that nobody can
// read is worse than none.
#pragma once

#include "base/diagnostic.h"
#include "records/read_planned.h"
#include "records/write.h"

namespace loopledger::records {

/// What the reader would say of the new record: nothing when it reads. Else one error
/// `record-value` that names the motor and the first figure in the way.
[[nodiscard]] Diagnostics new_record_problems(const NewRecord& record, PlannedSeen* seen = nullptr);

}  // namespace loopledger::records
