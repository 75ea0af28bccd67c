// SPDX-License-Identifier: MIT
//
// The one way in for an entry: `log`, `log --from` and the bench understand what was typed, each in
// its own manner, and then all go through here. First an entry is checked against its motor's
// record - the correction that it means, its key, what speaks against it, whether it says the same
// again - then it is added, and what follows from it is told.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "base/quantity_text.h"
#include "base/result.h"
#include "motor/doubts.h"
#include "records/entry.h"
#include "records/ledger.h"

namespace loopledger::commands {

/// When somebody says that an entry happened; empty: nobody does. Error log-at.
[[nodiscard]] Result<std::optional<Moment>> claimed_time(const std::string& typed);

/// An entry as it was understood, nothing looked up yet.
struct OfferedEntry {
  records::Entry entry{};           ///< its key still empty, what it corrects as typed
  std::optional<Moment> claimed{};  ///< when it happened; empty: by the clock, `context.now`
  motor::DoubtContext context{};
  bool sure = false;     ///< told a second time: nothing is doubted
  bool undated = false;  ///< of a file without a time: it may be of any time of this life
};

struct CheckedEntry {
  records::Entry entry;              ///< what it corrects found, its key set
  std::vector<motor::Doubt> doubts;  ///< the likeliest first: to be asked back, or refused
  Diagnostics again;                 ///< the warning log-again
  Diagnostics said;                  ///< errors log-corrects: it can't be taken at all
};

/// The first half of check_entry: what it corrects, and its key.
/// @param random_four four characters for a key, other ones at each call
[[nodiscard]] CheckedEntry keyed_entry(const records::Record& record, const OfferedEntry& offered,
                                       const std::function<std::string()>& random_four);
/// The second: what speaks against it, and whether it says the same again.
/// @pre keyed_entry() made it, without an error
void question(CheckedEntry& checked, const records::Record& record, const OfferedEntry& offered);

/// Both.
[[nodiscard]] CheckedEntry check_entry(const records::Record& record, const OfferedEntry& offered,
                                       const std::function<std::string()>& random_four);

/// What follows from an entry, a line each; printable. @param before the record without it
[[nodiscard]] std::vector<std::string> consequences_of(const records::Record& before,
                                                       const records::Entry& entry, Units units);

/// An entry that is on disk.
struct TakenEntry {
  records::Record before;  ///< the record without it
  records::Entry entry;
  std::vector<std::string> consequences;
};

/// Adds a checked entry, whatever was doubted. Errors: those of Ledger::add.
[[nodiscard]] Result<TakenEntry> add_entry(records::Ledger& ledger, records::Record before,
                                           records::Entry entry, Units units);

}  // namespace loopledger::commands
