// SPDX-License-Identifier: MIT
#include "cli/today_options.h"

#include <string_view>
#include <utility>

#include "cli/winder_today.h"
#include "records/fields.h"

namespace loopledger::cli {
namespace {

/// Sets a field of a winding from an option's text, if it was given: the bounds are a record's.
void take_option(const std::string& option, const std::string& text, std::string_view field,
                 records::Entry& entry, Diagnostics& problems) {
  if (text.empty()) {
    return;
  }
  for (Diagnostic d : set_field(entry, *records::find_field(records::Kind::wound, field), text)) {
    d.message = option + ": " + d.message;
    problems.push_back(std::move(d));
  }
}

}  // namespace

Command& add_today(Command& command, TodayOptions& options) {
  command
      .option("--temperature", options.temperature,
              "Today's, such as \"12 C\" or \"54 F\": what it does to the energy")
      .option("--launch", options.launch,
              "The torque wanted at launch, such as \"18 gf.cm\": how far to back off")
      .option("--back-off", options.let_out,
              "Turns to be let out before launch: what torque and energy is left");
  return add_winder_ratio(command, options.winder_ratio);
}

Result<Today> today_from(const TodayOptions& options, const Context& context) {
  Today today;
  Diagnostics problems;
  today.now = context.now();
  records::Entry winding;
  take_option("--temperature", options.temperature, "temperature", winding, problems);
  take_option("--launch", options.launch, "torque", winding, problems);
  take_option("--back-off", options.let_out, "turns", winding, problems);
  today.temperature = winding.temperature;
  today.launch = winding.torque;
  today.let_out = winding.turns;
  if (today.launch && *today.launch <= Torque{}) {
    problems.push_back(error("today-launch", "--launch: expected a torque above 0",
                             "such as --launch \"18 gf.cm\"", {}));
  }
  const auto ratio = todays_winder_ratio(options.winder_ratio, nullptr, context);
  append(problems, ratio.diagnostics());
  if (!problems.empty()) {
    return problems;
  }
  today.winder_ratio = ratio->value_or(1);
  return today;
}

}  // namespace loopledger::cli
