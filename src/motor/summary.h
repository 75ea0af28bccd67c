// SPDX-License-Identifier: MIT
//
// One motor in a few lines: whose it is, how it is, what to do next. For a list of several, and at
// the bench. Pure.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "motor/advice.h"
#include "records/entry.h"

namespace loopledger::motor {

/// "TH-01-T: ANNA, for Heron - tied", what is not as it should be, "  Next: wash and weigh it";
/// printable, without line ends.
[[nodiscard]] std::vector<std::string> summary_lines(const records::Record& record,
                                                     const Today& today, Units units);

}  // namespace loopledger::motor
