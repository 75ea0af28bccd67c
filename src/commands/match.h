// SPDX-License-Identifier: MIT
//
// `match N`: the N motors of the ledger that are most alike, for a set that flies the same.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "calc/match.h"
#include "commands/match_choice.h"
#include "commands/row_filter.h"
#include "commands/world.h"

namespace loopledger::commands {

inline constexpr int kLeastMatched = 2;
inline constexpr int kMostMatched = 100;

struct MatchRequest {
  int wanted = kLeastMatched;
  RowFilter only;
  std::vector<std::string> by = figure_words();
  std::string records;  ///< empty: as records_folder() says
};

struct MatchAnswer {
  int wanted = 0;
  calc::MatchBy by;
  std::optional<MatchChoice> choice;  ///< empty: the ledger can't be read
  std::optional<calc::Match> match;   ///< indices are those of choice->rows
  Diagnostics said;                   ///< errors when there is no match
};

/// Errors: usage-value for a number out of kLeastMatched to kMostMatched or none of
/// figure_words(), none-enough, disk-….
[[nodiscard]] MatchAnswer match(const MatchRequest& request, World& world);

}  // namespace loopledger::commands
