// SPDX-License-Identifier: MIT
//
// A stock file's text -> plan::Stock. Keys: text, paper = [width, height], columns, rows,
// label = [width, height], pitch = [x, y], left, top, dpi; without columns it is plain paper.
#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "plan/stock.h"

namespace loopledger::plan {

/// Errors: those of plan/tree.h, plan-key, plan-type, plan-bounds, plan-missing, and `stock-grid`
/// when the labels don't close on their sheet, with the sum.
[[nodiscard]] Result<Stock> read_stock(std::string_view text, const std::string& file,
                                       const std::string& name);

}  // namespace loopledger::plan
