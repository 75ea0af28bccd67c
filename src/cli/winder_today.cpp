// SPDX-License-Identifier: MIT
#include "cli/winder_today.h"

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "base/text.h"

namespace loopledger::cli {
namespace {

constexpr double kMostRatio = 100;  // as in a plan
constexpr const char* kVariable = "LOOPLEDGER_WINDER_RATIO";

Result<std::optional<double>> ratio_from(const std::string& text, const char* where) {
  const auto number = number_from(trimmed(text));
  if (!number || !(*number > 0) || *number > kMostRatio) {
    return error("winder-ratio",
                 fmt::format("{}: expected turns of the motor for one of the crank, over 0 and up "
                             "to {}, found \"{}\"",
                             where, kMostRatio, printable(shortened(text, 40))),
                 "such as 10");
  }
  return std::optional(*number);
}

}  // namespace

Result<std::optional<double>> todays_winder_ratio(const std::string& option,
                                                  std::optional<double> of_plan,
                                                  const Context& context) {
  if (!option.empty()) {
    return ratio_from(option, "--winder-ratio");
  }
  if (of_plan) {
    return of_plan;
  }
  const auto set = context.env(kVariable);
  return set && !set->empty() ? ratio_from(*set, kVariable)
                              : Result<std::optional<double>>(std::optional<double>());
}

}  // namespace loopledger::cli
