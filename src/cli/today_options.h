// SPDX-License-Identifier: MIT
//
// What `show` and `scan` may be told of the day: the temperature, and the torque wanted at launch
// or the turns to be let out before it.
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
  std::string let_out;
  std::string winder_ratio;
};

/// Describes --temperature, --launch, --back-off and --winder-ratio.
Command& add_today(Command& command, TodayOptions& options);

/// With the time of now. Errors: those of records::set_field, naming the option; today-launch;
/// winder-ratio.
[[nodiscard]] Result<Today> today_from(const TodayOptions& options, const Context& context);

}  // namespace loopledger::cli
