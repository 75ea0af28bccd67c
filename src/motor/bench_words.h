// SPDX-License-Identifier: MIT
//
// What the bench answers, in words. Pure.
#pragma once

#include <string>

#include "base/quantity_text.h"
#include "motor/now.h"
#include "records/entry.h"

namespace loopledger::motor {

/// "TH-01 Anna"
[[nodiscard]] std::string bench_name(const records::Record& record);

/// What was stored and what to do, in one line: "TH-01 Anna: 14 mg over, snip 8 mm (washed 1.776
/// g)". @param before the record without the entry
[[nodiscard]] std::string bench_answer(const records::Record& before, const records::Entry& entry,
                                       Units units);

/// What can be typed: one line, or a line each.
[[nodiscard]] std::string bench_help(bool lines);

}  // namespace loopledger::motor
