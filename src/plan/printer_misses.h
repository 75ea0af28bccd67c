// SPDX-License-Identifier: MIT
//
// How a printer misses, as its user measured it on a test page: kept in the user's own file, not in
// the stock, because it is the printer's fault and not the paper's. plan/read_printer_misses.h
// reads it.
#pragma once

#include <map>
#include <string>

#include "base/quantity.h"

namespace loopledger::plan {

/// What the bars of the test page are drawn as.
inline constexpr Length kCheckBar = Length::mm(100);

struct PrinterMiss {
  Length right;  ///< so far right of its place a print comes out; negative: left
  Length down;
  Length bar_across = kCheckBar;  ///< what the bar of 100 mm measures
  Length bar_down = kCheckBar;
};

struct PrinterMisses {
  PrinterMiss usual;
  std::map<std::string, PrinterMiss, std::less<>> by_stock;  ///< whole, in place of the usual one
  /// @param stock a stock's name
  [[nodiscard]] const PrinterMiss& miss_on(const std::string& stock) const {
    const auto own = by_stock.find(stock);
    return own != by_stock.end() ? own->second : usual;
  }
};

}  // namespace loopledger::plan
