// SPDX-License-Identifier: MIT
//
// A page that shows how a printer misses: the outlines and numbers of a stock's labels, to be held
// over a sheet of them against the light, and bars of a known length. What is measured goes into
// the user's printer file (plan/printer_misses.h).
#pragma once

#include <optional>
#include <string>

#include "base/date.h"
#include "base/result.h"
#include "page/page.h"
#include "plan/stock.h"

namespace loopledger::sheets {

struct TestPage {
  plan::Stock stock;         ///< labels, or plain paper
  std::string printer_file;  ///< as it is to be shown to the user
  std::string corrected;     ///< what is corrected already, in words; may be empty
  std::optional<Moment> created;
};

/// One page. On sheets with room for it also what to measure and where to write it. The bars are of
/// 100 mm, on smaller paper of 50, 20 or 10 mm. Errors: `page-stock`.
[[nodiscard]] Result<page::Document> test_page(const TestPage& wanted,
                                               const page::FontMetrics& metrics);

}  // namespace loopledger::sheets
