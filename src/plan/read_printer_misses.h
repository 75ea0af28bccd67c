// SPDX-License-Identifier: MIT
//
// The text of a user's printer file -> plan::PrinterMisses. Keys: shift = [right, down] and bars =
// [across, down], as measured on a test page; [stock.NAME] has the same two keys for one stock.
#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "plan/printer_misses.h"

namespace loopledger::plan {

/// Shifts are within 20 mm either way, bars from 90 to 110 mm. Errors: those of plan/tree.h,
/// plan-key, plan-type, plan-bounds.
[[nodiscard]] Result<PrinterMisses> read_printer_misses(std::string_view text,
                                                        const std::string& file);

}  // namespace loopledger::plan
