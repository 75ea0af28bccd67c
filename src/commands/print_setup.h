// SPDX-License-Identifier: MIT
//
// What every command that makes a PDF needs: paper, labels, layouts, fonts and their metrics, what
// the printer misses by, and the date that the file bears.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "base/date.h"
#include "base/result.h"
#include "commands/world.h"
#include "page/page.h"
#include "pdf/fonts.h"
#include "plan/label_layout.h"
#include "plan/plan.h"
#include "plan/printer_misses.h"
#include "plan/stock.h"

namespace loopledger::commands {

/// A template by name, with the place that asked for it.
struct TemplateName {
  std::string name;
  Place place;
};

/// What is to be printed on and by: stocks and layouts by their names.
struct PrintOrder {
  TemplateName paper{"a4", {}};
  std::optional<TemplateName> labels;  ///< none: plain labels on the paper
  TemplateName slip{"slip", {}};
  TemplateName bag{"bag", {}};
  TemplateName remnant{"remnant", {}};
  std::string beside;  ///< a plan's path: files that are named by a path lie beside it
};

/// What a request asks for; empty words ask for nothing.
[[nodiscard]] PrintOrder order_of(const std::string& paper, const std::string& labels,
                                  const std::string& layout);

/// The same with a plan: what is not asked for is the plan's.
[[nodiscard]] PrintOrder order_of(const plan::Plan& plan, const std::string& paper,
                                  const std::string& labels, const std::string& layout);

/// All of it, loaded.
struct PrintSetup {
  plan::Stock paper;
  plan::Stock labels;  ///< the paper when no label stock is named
  plan::LabelLayouts layouts;
  pdf::Fonts fonts;
  std::unique_ptr<page::FontMetrics> metrics;
  plan::PrinterMisses misses;
  std::string printer_file;     ///< where the user's own file is, or would be
  std::optional<Moment> epoch;  ///< what SOURCE_DATE_EPOCH says
};

/// Templates are found as load_stock says. Errors: those of load_stock, load_layout and
/// read_printer_misses, disk-data, disk-font. A SOURCE_DATE_EPOCH that can't be used is warned of.
[[nodiscard]] Result<PrintSetup> set_up_printing(const PrintOrder& order, World& world);

/// The creation date of a PDF: SOURCE_DATE_EPOCH, else this date, else none.
[[nodiscard]] std::optional<Moment> creation_date(const std::optional<Date>& date,
                                                  const PrintSetup& setup);

}  // namespace loopledger::commands
