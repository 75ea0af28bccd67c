// SPDX-License-Identifier: MIT
//
// What a motor's field card says, from its record as it now stands.
#pragma once

#include "base/quantity_text.h"
#include "motor/advice.h"
#include "motor/card_figures.h"
#include "records/entry.h"

namespace loopledger::motor {

/// The torque at "wind to" is drawn through the best winding's torque where that was wound at least
/// this far, as a share of "wind to"; one read lower says too little of it. Common sense, no
/// source.
inline constexpr double kTellsOfWindTo = 0.5;

/// A retired motor has what the list shows, and no figures to wind by.
[[nodiscard]] motor::CardMotor card_motor(const records::Record& record, const Today& today,
                                          Units units);

}  // namespace loopledger::motor
