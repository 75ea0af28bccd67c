// SPDX-License-Identifier: MIT
//
// The list of the box that comes before several field cards. Private to page/.
#pragma once

#include <vector>

#include "base/quantity_text.h"
#include "page/sheet.h"
#include "sheets/field_card.h"

namespace loopledger::sheets {

/// One line a motor, over as many pages as it takes, its head on each.
void draw_box_list(page::Sheet& sheet, const std::vector<motor::CardMotor>& motors, Units units);

}  // namespace loopledger::sheets
