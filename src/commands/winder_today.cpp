// SPDX-License-Identifier: MIT
#include "commands/winder_today.h"

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "base/text.h"

namespace loopledger::commands {
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

Result<std::optional<double>> todays_winder_ratio(const std::string& option, const plan::Plan* plan,
                                                  const World& world) {
  if (!option.empty()) {
    return ratio_from(option, "--winder-ratio");
  }
  if (plan != nullptr && plan->bench.winder_ratio.given) {
    return std::optional(plan->bench.winder_ratio.value);
  }
  const auto variable = world.env(kWinderRatioVariable);
  return variable && !variable->empty() ? ratio_from(*variable, kWinderRatioVariable)
                                        : Result<std::optional<double>>(std::optional<double>());
}

}  // namespace loopledger::commands
