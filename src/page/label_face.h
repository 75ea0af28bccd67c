// SPDX-License-Identifier: MIT
//
// One label: what stands where, and what is left out when room is scarce. Private to page/.
#pragma once

#include "base/quantity_text.h"
#include "page/canvas.h"
#include "page/label_figures.h"
#include "page/label_grid.h"

namespace loopledger::page {

/// Sets the text of a label into `room`, whose right part the QR symbol has taken already.
void draw_label_text(Canvas& canvas, const LabelFigures& label, const Rect& room, Units units);

}  // namespace loopledger::page
