// SPDX-License-Identifier: MIT
//
// What shows that a page came out of the printer true to scale: a bar of 100 mm, and a ruler.
// Private to page/.
#pragma once

#include "base/quantity_text.h"
#include "page/canvas.h"

namespace loopledger::page {

/// A bar of exactly 100 mm with a tick every 10 mm from `x`, standing on `y`, and what it is for.
void draw_check_bar(Canvas& canvas, double x, double y);

/// The same bar as a ruler with its edge at `y`: millimetres, or sixteenths of an inch with a tick
/// below where the 100 mm end.
void draw_check_ruler(Canvas& canvas, double x, double y, Units units);

/// A ruler that begins at `x` with its edge at `y`, as long as `width` allows in whole centimetres
/// (inches). Returns its height.
double draw_ruler(Canvas& canvas, double x, double y, double width, Units units);

}  // namespace loopledger::page
