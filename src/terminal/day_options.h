// SPDX-License-Identifier: MIT
//
// The options of the day that several commands share, and the filters of the ledger.
#pragma once

#include <string>

#include "commands/row_filter.h"
#include "commands/today.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {

/// Describes --winder-ratio.
Command& add_winder_ratio(Command& command, std::string& option);

/// Describes --temperature, --launch, --back-off and --winder-ratio.
Command& add_today(Command& command, commands::TodayRequest& request);

/// --owner, --class or --rule, --lot.
Command& add_filter(Command& command, commands::RowFilter& to);

}  // namespace loopledger::terminal
