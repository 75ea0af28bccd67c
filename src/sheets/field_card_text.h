// SPDX-License-Identifier: MIT
//
// How field cards and their list write figures. Private to page/.
#pragma once

#include <string>

#include "base/quantity_text.h"
#include "sheets/field_card.h"

namespace loopledger::sheets {

/// "41 gf·cm (0.57 ozf·in)"
[[nodiscard]] std::string both_torques(Torque value, Units units);
/// "23 (17–47)"; without brackets when the interval's ends read like the value.
[[nodiscard]] std::string torque_with_interval(const Estimate<Torque>& value, Units units);

/// What happened to it so far, and what it is made of.
[[nodiscard]] std::string life_words(const motor::CardMotor& motor, Units units);
/// What stands under the drawn curve.
[[nodiscard]] std::string curve_caption(const motor::CardMotor& motor);
/// What oiling once more does to the motor's mass. @pre motor.oil
[[nodiscard]] std::string oil_words(const motor::CardMotor& motor);
/// How it was launched last, and what to let out for the same. @pre motor.launch
[[nodiscard]] std::string card_launch_words(const motor::CardMotor& motor, Units units);

}  // namespace loopledger::sheets
