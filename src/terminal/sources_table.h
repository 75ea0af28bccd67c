// SPDX-License-Identifier: MIT
//
// Where the numbers come from: every default and every published value that the figures rest on,
// with its interval and its source. The values are the program's own constants, so that the table
// can't say anything else than what is used; the README holds the same table and a test compares.
#pragma once

#include <string>
#include <vector>

namespace loopledger::terminal {

struct SourceRow {
  std::string what;
  std::string value;
  std::string interval;  ///< 95 % unless it says otherwise; "-": none
  std::string source;
};

[[nodiscard]] const std::vector<SourceRow>& sources_table();

/// Each row on lines of at most 100 columns, and as a table for the README.
[[nodiscard]] std::string sources_text();
[[nodiscard]] std::string sources_markdown();

}  // namespace loopledger::terminal
