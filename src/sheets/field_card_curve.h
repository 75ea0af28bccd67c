// SPDX-License-Identifier: MIT
//
// The torque curve of a field card: turns along, torque up, "wind to" and "do not pass" as lines,
// what was read of the motor as marks. Private to page/.
#pragma once

#include "base/quantity_text.h"
#include "page/canvas.h"
#include "sheets/field_card.h"

namespace loopledger::sheets {

/// Draws it into `frame`, with its axes' numbers inside. @pre motor.curve, frame.h at least 30
void draw_torque_curve(page::Canvas& canvas, const page::Box& frame, const motor::CardMotor& motor,
                       Units units);

}  // namespace loopledger::sheets
