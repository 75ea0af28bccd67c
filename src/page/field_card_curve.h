// SPDX-License-Identifier: MIT
//
// The torque curve of a field card: turns along, torque up, "wind to" and "do not pass" as lines,
// what was read of the motor as marks. Private to page/.
#pragma once

#include "base/quantity_text.h"
#include "page/canvas.h"
#include "page/field_card.h"

namespace loopledger::page {

/// Draws it into `frame`, with its axes' numbers inside. @pre motor.curve, frame.h at least 30
void draw_torque_curve(Canvas& canvas, const Box& frame, const CardMotor& motor, Units units);

}  // namespace loopledger::page
