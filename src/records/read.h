// SPDX-License-Identifier: MIT
//
// A record's text -> Record. What is whole still reads beside what is damaged: damage is reported
// as warnings with their places, and only a head that can't be read is an error. Nothing that a
// sum doesn't vouch for is passed on as sound.
#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "records/entry.h"
#include "records/read_planned.h"

namespace loopledger::records {

/// The record, with warnings: record-torn, record-entries (the [entries] line is missing),
/// record-line, record-field, record-edited, record-hidden (an entry stands in a comment),
/// record-twice (one key on two lines), record-corrects (no such entry); errors: record-size,
/// record-empty, and those of records/read_planned.h. `file` is for the places.
/// `seen` helps where many records are read.
[[nodiscard]] Result<Record> read_record(std::string_view text, const std::string& file,
                                         PlannedSeen* seen = nullptr);

/// The entries alone, for a record whose head can't be read.
[[nodiscard]] Result<Record> read_entries_only(std::string_view text, const std::string& file);

}  // namespace loopledger::records
