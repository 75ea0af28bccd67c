// SPDX-License-Identifier: MIT
#include "terminal/day_options.h"

namespace loopledger::terminal {

Command& add_winder_ratio(Command& command, std::string& option) {
  return command.option("--winder-ratio", option, "Motor turns per turn of today's crank");
}

Command& add_today(Command& command, commands::TodayRequest& request) {
  command
      .option("--temperature", request.temperature,
              "Today's, such as \"12 C\" or \"54 F\": what it does to the energy")
      .option("--launch", request.launch,
              "The torque wanted at launch, such as \"18 gf.cm\": how far to back off")
      .option("--back-off", request.let_out,
              "Turns to be let out before launch: what torque and energy is left");
  return add_winder_ratio(command, request.winder_ratio);
}

Command& add_filter(Command& command, commands::RowFilter& to) {
  return command.option("--owner", to.owner, "Only this owner's")
      .option("--class,--rule", to.rule, "Only those under this rule")
      .option("--lot", to.lot, "Only those of this lot");
}

}  // namespace loopledger::terminal
