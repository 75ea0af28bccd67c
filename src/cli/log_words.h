// SPDX-License-Identifier: MIT
//
// What a person types behind `log ID`, as an entry: a kind, then field=value, or values alone where
// their unit or word says which field they are: `wound 1200 41 gf.cm stopped`. Pure: no ledger, no
// clock.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "records/entry.h"

namespace loopledger::cli {

/// The entry, its key still empty. Errors: log-kind, log-field, log-word, log-twice, record-missing
/// and those of records::set_field, all that were found.
[[nodiscard]] Result<records::Entry> entry_from_words(const std::string& kind,
                                                      const std::vector<std::string>& words);

/// The words of an entry that has turns, with "42 cranks", "turns=42 cranks" and the like said as
/// turns. Error log-cranks: the record knows no winder's ratio.
[[nodiscard]] Result<std::vector<std::string>> cranks_as_turns(
    const std::vector<std::string>& words, double winder_ratio);

/// The error log-at about what is no time, without a place.
[[nodiscard]] Diagnostic bad_time(const std::string& typed);

}  // namespace loopledger::cli
