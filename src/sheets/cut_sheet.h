// SPDX-License-Identifier: MIT
//
// The cut sheet: what lies beside the scale on the evening the motors are made. What to fetch, how
// to cut the pieces, how to dry, what the scale may read at each stage with blanks for what it did
// read, and what the figures rest on. Start here for the sheet's order; each section has a file of
// its own.
#pragma once

#include <optional>

#include "base/result.h"
#include "calc/figures.h"
#include "page/page.h"
#include "plan/plan.h"
#include "plan/stock.h"

namespace loopledger::sheets {

/// The sheet on `paper`, with a bookmark for each owner. `batch` was worked out from `plan`.
/// Warnings: `page-cut`, `page-glyph`. Error: `page-paper` (narrower than 180 or lower than 200
/// mm).
[[nodiscard]] Result<page::Document> cut_sheet(const plan::Plan& plan, const calc::Batch& batch,
                                               const plan::Stock& paper,
                                               const page::FontMetrics& metrics,
                                               std::optional<Moment> created);

}  // namespace loopledger::sheets
