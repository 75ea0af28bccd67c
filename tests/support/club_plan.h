// SPDX-License-Identifier: MIT
//
// An invented night as text: motors TH-01 and on at a club's limit, for tests of whole commands.
#pragma once

#include <string>

namespace loopledger::test {

/// @param more  further lines of the motors' group
inline std::string club_plan(int count, const std::string& more = {}) {
  return R"(format = 1
date = 2026-02-05
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
strips.tan = { samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]] }
[[motors]]
id = "TH"
rule = "club"
mass = "limit"
count = )" +
         std::to_string(count) + "\n" + more;
}

}  // namespace loopledger::test
