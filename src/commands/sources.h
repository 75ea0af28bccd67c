// SPDX-License-Identifier: MIT
//
// `sources`: where the numbers come from: every default and every published value that the figures
// rest on, with its interval and its source. The values are the program's own constants, so that
// the table can't say anything else than what is used; the README holds the same table and a test
// compares.
#pragma once

#include <string>
#include <vector>

namespace loopledger::commands {

struct SourceRow {
  std::string what;
  std::string value;
  std::string interval;  ///< 95 % unless it says otherwise; "-": none
  std::string source;
};

struct SourcesAnswer {
  std::vector<SourceRow> rows;
};

[[nodiscard]] SourcesAnswer sources();

}  // namespace loopledger::commands
