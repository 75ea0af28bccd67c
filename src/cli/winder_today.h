// SPDX-License-Identifier: MIT
//
// The winder's ratio of the day: turns of the motor for one of the crank. It is the winder's and
// not the motor's, so a record keeps turns, and cranks are told and taken only where somebody says
// what winder is in hand.
#pragma once

#include <optional>
#include <string>

#include "base/result.h"
#include "cli/command.h"

namespace loopledger::cli {

/// By `--winder-ratio`, else the plan's [bench] where a command has one, else the environment's
/// LOOPLEDGER_WINDER_RATIO; empty: nobody says. Error `winder-ratio`: it is no number over 0 and up
/// to 100.
[[nodiscard]] Result<std::optional<double>> todays_winder_ratio(const std::string& option,
                                                                std::optional<double> of_plan,
                                                                const Context& context);

}  // namespace loopledger::cli
