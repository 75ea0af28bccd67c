// SPDX-License-Identifier: MIT
//
// What `show` and `scan` may be told of the day: the temperature, and the torque wanted at launch.
#pragma once

#include <string>

#include "base/result.h"
#include "cli/advice.h"
#include "cli/command.h"
#include "cli/command_line.h"

namespace loopledger::cli {

struct TodayOptions {
  std::string temperature;
  std::string launch;
};

/// Describes --temperature and --launch.
Command& add_today(Command& command, TodayOptions& options);

/// With the time of now. Errors: those of
/// records::set_field, naming the option; today-launch.
[[nodiscard]] Result<Today> today_from(const TodayOptions& options, const Context& context);

}  // namespace loopledger::cli
