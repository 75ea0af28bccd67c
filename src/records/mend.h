// SPDX-License-Identifier: MIT
//
// What `mend` does to a damaged or hand-edited record, as text -> text: the ledger's only
// rewriting. Nothing is thrown away: what is taken out of the record is handed back to be kept
// beside it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"

namespace loopledger::records {

struct Mended {
  std::string text;               ///< the record as it is to be
  std::string moved;              ///< bytes taken out of it
  bool whole_moved = false;       ///< torn before its entries begin: the whole file is to go
  std::vector<std::string> done;  ///< what was done, a sentence each
  Diagnostics left;               ///< what only a person can put right
};

/// Takes out a torn end, puts back a missing [entries] line or last line end; with `accept` also
/// gives hand-edited lines and figures that can be read a right sum. `file` is for the places.
[[nodiscard]] Mended mend_text(std::string_view text, const std::string& file, bool accept);

}  // namespace loopledger::records
