// SPDX-License-Identifier: MIT
//
// `log --from FILE`: many entries at once, all or none. What the ledger has already is told and
// passed over, so that a file can be taken in again.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "terminal/command.h"

namespace loopledger::terminal {

/// The options of `log`.
struct LogOptions {
  std::string from;  ///< a file of entries
  std::string id;
  std::string kind;
  std::vector<std::string> words;
  std::string at;
  std::string winder_ratio;
  std::string records;
  std::optional<Units> units;
  bool sure = false;
  bool json = false;
};

/// @pre options.from is set
void run_log_many(const LogOptions& options, Context& context);

}  // namespace loopledger::terminal
