// SPDX-License-Identifier: MIT
//
// The two tables of a field card: what backing off leaves, and blanks for the day. Private to
// page/.
#pragma once

#include "base/quantity_text.h"
#include "page/canvas.h"
#include "sheets/field_card.h"

namespace loopledger::sheets {

inline constexpr double kCardTablesHeight = 37;

/// Both, side by side, from `y` down.
void draw_card_tables(page::Canvas& canvas, double x, double y, double width,
                      const motor::CardMotor& motor, Units units);

}  // namespace loopledger::sheets
