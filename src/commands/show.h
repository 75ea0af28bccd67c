// SPDX-License-Identifier: MIT
//
// `show ID`: one motor's record and what to do next.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "commands/today.h"
#include "commands/world.h"
#include "records/entry.h"

namespace loopledger::commands {

struct ShowRequest {
  std::string id;
  std::string records;  ///< empty: as records_folder() says
  TodayRequest today;
};

struct ShowAnswer {
  std::optional<records::Record> record;
  motor::Today today;
  std::vector<records::Entry> entries_only;  ///< what still reads of a record whose head does not
  Diagnostics said;                          ///< errors when there is no record
};

/// Errors: those of today_from and find_record.
[[nodiscard]] ShowAnswer show(const ShowRequest& request, World& world);

}  // namespace loopledger::commands
