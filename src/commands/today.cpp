// SPDX-License-Identifier: MIT
#include "commands/today.h"

#include <string_view>
#include <utility>

#include "commands/winder_today.h"
#include "records/fields.h"

namespace loopledger::commands {
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

Result<motor::Today> today_from(const TodayRequest& options, const World& world) {
  motor::Today today;
  Diagnostics problems;
  today.now = world.now();
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
  const auto ratio = todays_winder_ratio(options.winder_ratio, nullptr, world);
  append(problems, ratio.diagnostics());
  if (!problems.empty()) {
    return problems;
  }
  today.winder_ratio = ratio->value_or(1);
  return today;
}

}  // namespace loopledger::commands
