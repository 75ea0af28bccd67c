// SPDX-License-Identifier: MIT
//
// The winder's ratio: it is the winder's, of the day, and not the motor's. Told by --winder-ratio,
// else by the plan at the bench, else by the environment.
#pragma once

#include <optional>
#include <string>

#include "base/result.h"
#include "commands/world.h"
#include "plan/plan.h"

namespace loopledger::commands {

inline constexpr const char* kWinderRatioVariable = "LOOPLEDGER_WINDER_RATIO";

/// Motor turns per turn of the crank, 0.1 to 100; empty: nobody says. @param plan null where
/// there is none. Error winder-ratio: the option or the variable is no such number.
[[nodiscard]] Result<std::optional<double>> todays_winder_ratio(const std::string& option,
                                                                const plan::Plan* plan,
                                                                const World& world);

}  // namespace loopledger::commands
