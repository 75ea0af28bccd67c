// SPDX-License-Identifier: MIT
//
// What a rule counts and a motor does not name: without the lubricant, rings or adhesive in the
// plan nothing is kept free for them under the limit, and a motor that gets them on the night is
// over.
#pragma once

#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "calc/figures.h"
#include "plan/plan.h"

namespace loopledger::calc {

/// Of "lubricant", "rings" and "adhesive" those that the motor's rule counts and the motor names
/// none of. Empty without a rule. A lubricant with an uptake of 0 % is named: there is none.
[[nodiscard]] std::vector<std::string_view> counted_but_not_named(const records::Planned& planned);

/// Warning `rule-parts`, one for each group of the plan that has such a motor or choice, at the
/// group.
[[nodiscard]] Diagnostics check_rule_parts(const plan::Plan& plan, const Batch& batch);

}  // namespace loopledger::calc
