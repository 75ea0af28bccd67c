// SPDX-License-Identifier: MIT
//
// The list of the box that comes before several field cards. Private to page/.
#pragma once

#include <vector>

#include "base/quantity_text.h"
#include "page/field_card.h"
#include "page/sheet.h"

namespace loopledger::page {

/// One line a motor, over as many pages as it takes, its head on each.
void draw_box_list(Sheet& sheet, const std::vector<CardMotor>& motors, Units units);

}  // namespace loopledger::page
