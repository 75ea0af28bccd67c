// SPDX-License-Identifier: MIT
//
// What a person types behind `log ID`, as an entry: a kind, then field=value, or values alone where
// their unit or word says which field they are: `wound 1200 41 gf.cm stopped`. Pure: no ledger, no
// clock.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "records/entry.h"

namespace loopledger::motor {

/// The entry, its key still empty. Errors: log-kind, log-field, log-word, log-twice, record-missing
/// and those of records::set_field, all that were found.
[[nodiscard]] Result<records::Entry> entry_from_words(const std::string& kind,
                                                      const std::vector<std::string>& words);

struct TurnedWords {
  std::vector<std::string> words;
  bool in_cranks = false;  ///< the turns were typed as cranks
};
/// The words of an entry that has turns, with "42 cranks", "cranks=42", "turns=42 cranks" and the
/// like said as turns. Error log-cranks: nobody says the winder's ratio (commands/winder_today.h).
[[nodiscard]] Result<TurnedWords> cranks_as_turns(const std::vector<std::string>& words,
                                                  const std::optional<double>& winder_ratio);

struct TypedEntry {
  records::Entry entry;  ///< its key still empty
  bool in_cranks = false;
};
/// Both: a kind and its words, cranks as turns where the kind has turns.
[[nodiscard]] Result<TypedEntry> entry_from_typed(const std::string& kind,
                                                  const std::vector<std::string>& words,
                                                  const std::optional<double>& winder_ratio);

/// The error log-at about what is no time, without a place.
[[nodiscard]] Diagnostic bad_time(const std::string& typed);

}  // namespace loopledger::motor
