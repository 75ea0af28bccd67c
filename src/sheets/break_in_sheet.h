// SPDX-License-Identifier: MIT
//
// The break-in sheet: what each motor is stretched and wound to, step by step, with blanks for the
// time of day, what was reached, and how the loop grew. Motors without a recipe get blanks.
#pragma once

#include <optional>

#include "base/result.h"
#include "calc/figures.h"
#include "page/page.h"
#include "plan/plan.h"
#include "plan/stock.h"

namespace loopledger::sheets {

/// The sheet on `paper`, with a bookmark for each owner. Warnings: `page-cut`, `page-glyph`. Error:
/// `page-paper`.
[[nodiscard]] Result<page::Document> break_in_sheet(const plan::Plan& plan,
                                                    const calc::Batch& batch,
                                                    const plan::Stock& paper,
                                                    const page::FontMetrics& metrics,
                                                    std::optional<Moment> created);

}  // namespace loopledger::sheets
