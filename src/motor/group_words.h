// SPDX-License-Identifier: MIT
//
// Several motors by their ids in short.
#pragma once

#include <string>

#include "base/motor_id.h"
#include "plan/plan.h"

namespace loopledger::motor {

/// "TH-01…06": motors that follow each other, up to the number `last`; a single one by its id
/// alone.
[[nodiscard]] std::string ids_text(const MotorId& first, int last);

/// All motors of a plan's group.
[[nodiscard]] std::string ids_text(const plan::MotorGroup& group);

}  // namespace loopledger::motor
