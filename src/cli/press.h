// SPDX-License-Identifier: MIT
//
// What every command that makes a PDF needs: paper, labels, fonts and their metrics, and the date
// that the file bears.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "base/date.h"
#include "base/result.h"
#include "cli/command.h"
#include "page/page.h"
#include "pdf/fonts.h"
#include "plan/stock.h"

namespace loopledger::cli {

/// A stock by name, with the place that asked for it.
struct StockName {
  std::string name;
  Place place;
};

struct Press {
  plan::Stock paper;
  plan::Stock labels;  ///< the paper when no label stock is named
  pdf::Fonts fonts;
  std::unique_ptr<page::FontMetrics> metrics;
};

/// Stocks are found as load_stock says, beside `plan_path`. Errors: those of load_stock,
/// disk-data, disk-font.
[[nodiscard]] Result<Press> set_up_press(const StockName& paper,
                                         const std::optional<StockName>& labels,
                                         const std::string& plan_path, Context& context);

/// The creation date of a PDF: SOURCE_DATE_EPOCH when it is a moment before the year 10000, else
/// this date, else none.
[[nodiscard]] std::optional<Moment> creation_date(const std::optional<Date>& date,
                                                  const Context& context);

}  // namespace loopledger::cli
