// SPDX-License-Identifier: MIT
//
// A motor's id on a sheet, never cut and never small: one that is too long for a line has its stem
// above its number. Private to page/.
#pragma once

#include "base/motor_id.h"
#include "page/canvas.h"

namespace loopledger::page {

/// With check character, in the middle of the box's height; on one line down to the style's
/// `smallest_pt`, else on two. `box` is only a place, it is not drawn.
void draw_id(Canvas& canvas, const Box& box, const MotorId& id, const Style& style);

/// The least width that draw_id takes without going below `smallest_pt`.
[[nodiscard]] double least_id_width(Canvas& canvas, const MotorId& id, const Style& style);

}  // namespace loopledger::page
