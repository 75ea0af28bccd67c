// SPDX-License-Identifier: MIT
//
// What `show` and `scan` may be told of the day: the temperature, and the torque wanted at launch
// or the turns to be let out before it.
#pragma once

#include <string>

#include "base/result.h"
#include "commands/world.h"
#include "motor/advice.h"

namespace loopledger::commands {

struct TodayRequest {
  std::string temperature;
  std::string launch;
  std::string let_out;
  std::string winder_ratio;
};

/// With the time of now. Errors: those of records::set_field, naming the option; today-launch;
/// winder-ratio.
[[nodiscard]] Result<motor::Today> today_from(const TodayRequest& options, const World& world);

}  // namespace loopledger::commands
