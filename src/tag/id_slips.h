// SPDX-License-Identifier: MIT
//
// Which ids one slip of the hand turns into what was typed. tag/id.h splits the text; this looks
// at its three parts as one row of characters.
#pragma once

#include <string>
#include <vector>

#include "base/motor_id.h"

namespace loopledger::tag {

/// Ids whose printed form with check differs from stem + number + check by one wrong character or
/// one swap of neighbours; most plausible first, no id twice.
[[nodiscard]] std::vector<MotorId> slips_from(const std::string& stem, const std::string& number,
                                              char check);

}  // namespace loopledger::tag
