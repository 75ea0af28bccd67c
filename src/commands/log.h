// SPDX-License-Identifier: MIT
//
// `log ID KIND …`: adds one entry to a motor's record.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/quantity_text.h"
#include "commands/take_entry.h"
#include "commands/world.h"

namespace loopledger::commands {

struct LogRequest {
  std::string id;
  std::string kind;
  std::vector<std::string> words;  ///< field=value, or values alone with their units
  std::string at;                  ///< when it happened; empty: now
  std::string winder_ratio;
  std::string records;          ///< empty: as records_folder() says
  Units units = Units::metric;  ///< of what is doubted and of what follows
  bool sure = false;            ///< what looks like a slip is taken
};

struct LogAnswer {
  std::optional<TakenEntry> taken;  ///< empty: nothing was stored
  /// Told before it is stored: warnings about the record and the words; whose motor it is taken
  /// for, where no check character says so; the warning log-again.
  Diagnostics of_record;
  std::string taken_for;
  Diagnostics again;
  Diagnostics said;  ///< errors when nothing was stored
};

/// Errors: usage-missing, those of find_record, motor/typed_entry.h, todays_winder_ratio,
/// check_entry and add_entry, log-at, log-doubt.
[[nodiscard]] LogAnswer log(const LogRequest& request, World& world);

}  // namespace loopledger::commands
