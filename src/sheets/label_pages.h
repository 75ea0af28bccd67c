// SPDX-License-Identifier: MIT
//
// The sheets of a run of labels, cell by cell; what stands on a label is the caller's. Private to
// page/.
#pragma once

#include <functional>

#include "page/canvas.h"
#include "sheets/label_grid.h"
#include "sheets/labels.h"

namespace loopledger::sheets {

/// Draws label `index` into `cell` of the last page of `document`.
using DrawLabel = std::function<void(page::Canvas& canvas, const LabelGrid& grid, std::size_t index,
                                     int cell, page::Document& document)>;

/// `count` labels from the run's first cell on, with lines to cut along on plain paper. Errors:
/// page-stock, label-start.
[[nodiscard]] Result<page::Document> label_pages(std::size_t count, const LabelRun& run,
                                                 const page::FontMetrics& metrics,
                                                 Diagnostics& warnings, const DrawLabel& draw);

}  // namespace loopledger::sheets
