// SPDX-License-Identifier: MIT
//
// `log --from FILE`: many entries at once, all or none. What the ledger has already is told and
// passed over, so that a file can be taken in again.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/quantity_text.h"
#include "commands/world.h"
#include "records/entry.h"

namespace loopledger::commands {

struct LogManyRequest {
  std::string from;  ///< the file; "-": standard input
  std::string id;    ///< typed beside it: each entry of the file names its motor
  std::string at;    ///< when what has no time of its own happened; empty: now
  std::string winder_ratio;
  std::string records;          ///< empty: as records_folder() says
  Units units = Units::metric;  ///< of what is doubted and of what follows
  bool sure = false;            ///< what looks like a slip is taken
  /// What follows from each row is told also of a long file, which then takes several times as
  /// long; of an evening's it always is.
  bool with_consequences = false;
};

/// An entry of the file that was stored.
struct LoggedRow {
  MotorId id;
  Place place;        ///< in the file
  std::string whose;  ///< motor/words.h
  records::Entry entry;
  /// With what stands before it in the file. Of a long file only if asked for.
  std::vector<std::string> consequences;
};

struct LogManyAnswer {
  std::vector<LoggedRow> rows;  ///< in the file's order
  std::size_t there = 0;        ///< entries that were there already
  Diagnostics said;             ///< placed in the file; with errors nothing was stored
};

/// Errors: usage-both, those of reading the file and of entries_from_file, todays_winder_ratio,
/// Ledger::read, torn_refusal, check_entry and Ledger::add_all, log-at, log-doubt.
[[nodiscard]] LogManyAnswer log_many(const LogManyRequest& request, World& world);

}  // namespace loopledger::commands
