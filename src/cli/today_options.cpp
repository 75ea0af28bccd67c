// SPDX-License-Identifier: MIT
#include "cli/today_options.h"

#include "base/quantity_text.h"

namespace loopledger::cli {
namespace {

/// Sets `to` from an option's text, if it was given.
template <class Q>
void take(const std::string& option, const std::string& text, Result<Q> (*from)(std::string_view),
          std::optional<Q>& to, Diagnostics& problems) {
  if (text.empty()) {
    return;
  }
  auto read = from(text);
  if (read) {
    to = *read;
    return;
  }
  for (Diagnostic d : read.diagnostics()) {
    d.message = option + ": " + d.message;
    problems.push_back(std::move(d));
  }
}

}  // namespace

Command& add_today(Command& command, TodayOptions& options) {
  return command
      .option("--temperature", options.temperature,
              "Today's, such as \"12 C\" or \"54 F\": what it does to the energy")
      .option("--launch", options.launch,
              "The torque wanted at launch, such as \"18 gf.cm\": how far to back off");
}

Result<Today> today_from(const TodayOptions& options, const Context& context) {
  Today today;
  Diagnostics problems;
  today.now = context.now();
  take("--temperature", options.temperature, temperature_from, today.temperature, problems);
  take("--launch", options.launch, torque_from, today.launch, problems);
  if (today.launch && *today.launch <= Torque{}) {
    problems.push_back(error("today-launch", "--launch: expected a torque above 0", {}, {}));
  }
  if (!problems.empty()) {
    return problems;
  }
  return today;
}

}  // namespace loopledger::cli
