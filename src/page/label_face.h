// SPDX-License-Identifier: MIT
//
// One label: what stands where, and what is left out when room is scarce. Private to page/.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "page/canvas.h"
#include "page/label_figures.h"
#include "page/label_grid.h"

namespace loopledger::page {

/// Sets the text of a label into `room`, whose right part the QR symbol has taken already.
/// Returns the names of the lines that were left out because the label is too low for them.
[[nodiscard]] std::vector<std::string> draw_label_text(Canvas& canvas, const LabelFigures& label,
                                                       const Rect& room, Units units);

}  // namespace loopledger::page
