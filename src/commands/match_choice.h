// SPDX-License-Identifier: MIT
//
// Which motors `match` may choose from, and why the others are left out: retired, not tied yet, or
// without a figure that is asked for. A figure counts when it was logged, never as planned.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "calc/match.h"
#include "commands/motor_rows.h"
#include "commands/row_filter.h"

namespace loopledger::commands {

/// "mass", "loop", "torque": the words of --by, in their order.
[[nodiscard]] std::vector<std::string> figure_words();
/// @pre words are those of figure_words()
[[nodiscard]] calc::MatchBy match_by(const std::vector<std::string>& words);
/// "mass,loop", as it is typed.
[[nodiscard]] std::string by_text(calc::MatchBy by);
/// The same, as words.
[[nodiscard]] std::vector<std::string> by_words(calc::MatchBy by);

/// Motors that are left out for one reason.
struct LeftOut {
  std::string reason;  ///< "retired", "not_tied", "not_logged", "unreadable"
  calc::MatchBy without{false, false, false};  ///< of "not_logged": which figures
  int motors = 0;
};

struct MatchChoice {
  int looked_at = 0;           ///< records that read and pass the filters
  std::vector<MotorRow> rows;  ///< of those, what may be chosen, in the order of their ids
  std::vector<LeftOut> left_out;
  /// How many there would be if these figures were asked for: one row for each set of them, most
  /// figures first.
  std::vector<std::pair<calc::MatchBy, int>> would_be;
};

/// @param rows every record of the ledger that reads, in the order of the ids
/// @param unreadable how many don't
[[nodiscard]] MatchChoice match_choice(const std::vector<MotorRow>& rows, const RowFilter& only,
                                       calc::MatchBy by, int unreadable);

/// "8 without a torque, 2 retired, 1 record can't be read"; empty when nothing is left out.
[[nodiscard]] std::string left_out_text(const std::vector<LeftOut>& left_out);

/// Why `wanted` motors can't be had from the choice, code none-enough, with what to do as its hint.
/// @pre choice.rows.size() < wanted
[[nodiscard]] Diagnostic too_few(const MatchChoice& choice, int wanted, const RowFilter& only,
                                 calc::MatchBy by, const std::string& folder);

}  // namespace loopledger::commands
