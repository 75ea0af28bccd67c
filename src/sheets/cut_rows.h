// SPDX-License-Identifier: MIT
//
// The columns of an owner's table at the scale: their names, and one motor's row. Private to page/.
#pragma once

#include "calc/figures.h"
#include "page/sheet.h"

namespace loopledger::sheets {

inline constexpr double kMotorRowHeight = 16.5;
inline constexpr double kNamesRowHeight = 9;

void draw_column_names(page::Sheet& sheet, Units units);

/// The window at each stage, large, with a box to tick and a blank for what the scale read.
void draw_motor_row(page::Sheet& sheet, const calc::MotorFigures& motor, Units units);

}  // namespace loopledger::sheets
