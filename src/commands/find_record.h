// SPDX-License-Identifier: MIT
//
// From a typed id to a motor's record, as all commands on one motor do it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "commands/world.h"
#include "records/ledger.h"

namespace loopledger::commands {

struct FoundRecord {
  MotorId id;
  bool checked = false;  ///< a right check character was typed
  records::Record record;
};

/// The record of the motor whose id was typed, with the warnings of reading it. Errors: id-form,
/// id-check, none-record (its hint names the nearest id that is held), record-…, disk-….
[[nodiscard]] Result<FoundRecord> find_record(records::Ledger& ledger, const std::string& typed);

/// Ids as typed, one by one: commas and blanks part them.
[[nodiscard]] std::vector<std::string> parted_ids(const std::vector<std::string>& typed);

/// "did you mean TN-01?": the held id that is nearest to one that is not; empty when none is near.
[[nodiscard]] std::string nearest_held(records::Ledger& ledger, const MotorId& id);

/// Empty where entries can be added, else the error record-torn: for commands that would do
/// something else before the ledger refuses.
[[nodiscard]] Diagnostics torn_refusal(const records::Record& record);

/// "AB-06-3 is retired: it gets no card", a warning CARD-retired. @param paper "card" or "label"
[[nodiscard]] Diagnostic retired_warning(const MotorId& id, std::string_view paper);

/// The records folder by the rule of the manual: `option` if not empty, else LOOPLEDGER_RECORDS,
/// else `from_plan` (already beside the plan; may be empty), else "records".
[[nodiscard]] std::string records_folder(const std::string& option, const std::string& from_plan,
                                         const World& world);

}  // namespace loopledger::commands
