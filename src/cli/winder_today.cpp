// SPDX-License-Identifier: MIT
#include "cli/winder_today.h"

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "base/text.h"

namespace loopledger::cli {
namespace {

constexpr double kLeastRatio = 0.1;  // as [bench] of a plan
constexpr double kMostRatio = 100;

Result<std::optional<double>> ratio_from(const std::string& text, std::string_view name) {
  const auto ratio = number_from(trimmed(text));
  if (!ratio || !(*ratio >= kLeastRatio) || *ratio > kMostRatio) {
    return error("winder-ratio",
                 fmt::format("{}: expected a number from {} to {}, found \"{}\"", name, kLeastRatio,
                             kMostRatio, printable(shortened(text, 40))),
                 fmt::format("turns of the motor per turn of the crank: {} 10", name));
  }
  return std::optional(*ratio);
}

}  // namespace

Command& add_winder_ratio(Command& command, std::string& option) {
  return command.option("--winder-ratio", option, "Motor turns per turn of today's crank");
}

Result<std::optional<double>> todays_winder_ratio(const std::string& option, const plan::Plan* plan,
                                                  const Context& context) {
  if (!option.empty()) {
    return ratio_from(option, "--winder-ratio");
  }
  if (plan != nullptr && plan->bench.winder_ratio.given) {
    return std::optional(plan->bench.winder_ratio.value);
  }
  const auto variable = context.env(kWinderRatioVariable);
  return variable && !variable->empty() ? ratio_from(*variable, kWinderRatioVariable)
                                        : Result<std::optional<double>>(std::optional<double>());
}

}  // namespace loopledger::cli
