// SPDX-License-Identifier: MIT
#include "records/reads_back.h"

#include <fmt/format.h>

#include "records/read.h"

namespace loopledger::records {

Diagnostics new_record_problems(const NewRecord& record, PlannedSeen* seen) {
  const auto read = read_record(new_record_text(record), printed(record.id), seen);
  if (read && read.diagnostics().empty()) {
    return {};
  }
  return {error("record-value",
                fmt::format("{}: its record could not be read again: {}", printed(record.id),
                            read.diagnostics().front().message),
                "no motor has such a figure; look for a slip in the plan")};
}

}  // namespace loopledger::records
