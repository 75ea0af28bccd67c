// SPDX-License-Identifier: MIT
#include "calc/rule_parts.h"

#include <fmt/format.h>

#include <map>
#include <string>

#include "base/terms.h"

namespace loopledger::calc {
namespace {

/// What to type for a part that counts, in the motors' table and in one of its own.
std::string to_type(std::string_view part) {
  if (part == "lubricant") {
    return "lubricant = \"oil\" with [lubricants.oil] uptake = \"1.2 % ± 0.4 %\"";
  }
  if (part == "rings") {
    return "rings = \"small\" with [rings.small] weighed = 10, mass = \"60 mg\"";
  }
  return "adhesive = \"glue\" with [adhesives.glue] mass = \"1 mg ± 0.5 mg\"";
}

Diagnostic parts_warning(const plan::MotorGroup& group, const records::Planned& planned,
                         const std::vector<std::string_view>& parts) {
  std::string listed;
  std::string typed;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    listed += i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ";
    listed += parts[i];
    typed += (i == 0 ? "" : "; ") + to_type(parts[i]);
  }
  return warning(
      "rule-parts",
      fmt::format("motors \"{}\": rule \"{}\" counts {}, and the motors name none: nothing is "
                  "kept free under the limit for what goes on",
                  group.stem.value, planned.rule->name, listed),
      fmt::format("say what goes on, your figures for these: {}; or, if none goes on, take it out "
                  "of the rule's `counts`",
                  typed),
      group.place);
}

}  // namespace

std::vector<std::string_view> counted_but_not_named(const records::Planned& planned) {
  if (!planned.rule) {
    return {};
  }
  const Counts named{.rubber = true,
                     .lubricant = !planned.lubricant.empty(),
                     .rings = !planned.ring.empty(),
                     .adhesive = !planned.adhesive.empty()};
  std::vector<std::string_view> missing;
  for (const auto& [name, part] : kCountWords) {
    if (planned.rule->counts.*part && !(named.*part)) {
      missing.push_back(name);
    }
  }
  return missing;
}

Diagnostics check_rule_parts(const plan::Plan& plan, const Batch& batch) {
  std::map<std::size_t, const records::Planned*> first;
  for (const MotorFigures& motor : batch.motors) {
    first.try_emplace(motor.group, &motor.planned);
  }
  for (const Choice& choice : batch.choices) {
    first.try_emplace(choice.group, &choice.planned);
  }
  Diagnostics said;
  for (const auto& [group, planned] : first) {
    if (const auto parts = counted_but_not_named(*planned); !parts.empty()) {
      said.push_back(parts_warning(plan.motors[group], *planned, parts));
    }
  }
  return said;
}

}  // namespace loopledger::calc
