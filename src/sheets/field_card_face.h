// SPDX-License-Identifier: MIT
//
// One motor's field card. Private to page/.
#pragma once

#include "base/quantity_text.h"
#include "page/canvas.h"
#include "sheets/field_card.h"

namespace loopledger::sheets {

/// Least height, in mm, at which a card of this width holds what it has to say.
[[nodiscard]] double least_card_height(page::Canvas& canvas, double width,
                                       const motor::CardMotor& motor, Units units);

/// @pre frame.h is no less than least_card_height()
void draw_card(page::Canvas& canvas, const page::Box& frame, const motor::CardMotor& motor,
               Units units);

}  // namespace loopledger::sheets
