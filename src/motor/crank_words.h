// SPDX-License-Identifier: MIT
//
// Turns of the motor told as cranks of the winder too, wherever words do: behind the turns. Nothing
// where a turn of the crank is one of the motor. Which side is the safe one is calc/cranks.h's.
#pragma once

#include <string>

#include "base/quantity.h"

namespace loopledger::motor {

/// " = 118 cranks": of turns that are not to be passed.
[[nodiscard]] std::string as_cranks_at_most(Turns turns, double ratio);
/// Of turns to wind to.
[[nodiscard]] std::string as_cranks_to_wind_to(Turns wind_to, Turns do_not_pass, double ratio);
/// Of turns to let out.
[[nodiscard]] std::string as_nearest_cranks(Turns out, double ratio);

/// "cranks 10:1", the head of a column or what stands under a number; "cranks" alone without a
/// ratio.
[[nodiscard]] std::string cranks_head(double ratio);

}  // namespace loopledger::motor
