// SPDX-License-Identifier: MIT
//
// A record's entries as they stand: each correction in the place of what it replaces, what was
// taken back out, the rest in the order of their time. The one reading of corrections and of time;
// motor/now.h folds what comes out of it.
//
// - `corrects` names the entry that is replaced. The correction stands in that entry's place, in
//   the file and in time. Of several of one entry the newest counts, by the time in its key; at the
//   same time the one that stands later in the file.
// - A note that corrects takes back: nothing stands in that place. A correction that is taken back
//   replaces nothing: what it took counts again, a taken-back note among them.
// - An unsound line (its sum is missing or wrong) replaces nothing and counts for nothing. What a
//   sound entry says in its place counts, which is the place of what the unsound line corrects.
// - An entry stands at the time that its key claims; one whose key claims none stands with the
//   sound line before it. Equal times keep the file's order.
// - A correction of an entry that the record does not have stands at the time in that entry's key;
//   of several the newest counts here too, and stands where its own line is.
// - Of two lines with one key the sound one is meant, else the first.
// - Links that lead round in a circle are no corrections.
#pragma once

#include <optional>
#include <vector>

#include "base/date.h"
#include "records/entry.h"

namespace loopledger::motor {

/// One place in a motor's life and the entry that counts there. Points into the record's entries.
struct Standing {
  const records::Entry* entry = nullptr;  ///< what counts: sound
  /// What stood there first; `entry` if nothing replaced it. Of an entry that the record does not
  /// have, its correction.
  const records::Entry* place = nullptr;
  std::size_t index = 0;     ///< of `place`, in the file's order
  std::optional<Moment> at;  ///< claimed by the place's own key; empty: it claims none
};

/// A second correction of one entry: the newest counts, the earlier one does not.
struct Superseded {
  const records::Entry* earlier = nullptr;
  const records::Entry* newest = nullptr;
};

struct StandingEntries {
  std::vector<Standing> entries;       ///< in the order of their time
  std::vector<Superseded> superseded;  ///< in the file's order of the earlier one
  /// By index of the record's entries: the entry that replaced this one or took it back; null:
  /// none.
  std::vector<const records::Entry*> replaced_by;
};

/// `entries` must outlive what is returned.
[[nodiscard]] StandingEntries standing_of(const std::vector<records::Entry>& entries);

/// The key of the place in which the entry of this key stands, and what corrects it: its own, or
/// that at the end of the chain of what it corrects. `key` itself where no entry has it.
[[nodiscard]] std::string_view place_of(const std::vector<records::Entry>& entries,
                                        std::string_view key);

}  // namespace loopledger::motor
