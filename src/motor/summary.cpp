// SPDX-License-Identifier: MIT
#include "motor/summary.h"

#include <fmt/format.h>

#include "motor/now.h"
#include "motor/words.h"

namespace loopledger::motor {

std::vector<std::string> summary_lines(const records::Record& record, const Today& today,
                                       Units units) {
  const Now now = now_of(record);
  std::vector<std::string> lines{fmt::format("{} - {}", whose(record), spoken(now.state))};
  if (const std::string mark = mark_words(now); !mark.empty()) {
    lines.push_back("  " + mark);
  }
  lines.push_back("  Next: " + next_step(record, now, today, units));
  return lines;
}

}  // namespace loopledger::motor
