// SPDX-License-Identifier: MIT
//
// What `check` and `print` both hold a worked-out plan against beyond its own figures: that its
// motors name what their rule counts, that their records could be read again, and that the paper,
// the labels and the layout it names are there and sound.
#pragma once

#include "base/diagnostic.h"
#include "calc/figures.h"
#include "commands/world.h"
#include "plan/plan.h"

namespace loopledger::commands {

/// Warning `rule-parts`; error `plan-record`, one for each group, at what most likely brings it.
[[nodiscard]] Diagnostics check_batch(const plan::Plan& plan, const calc::Batch& batch);

/// Of the names that the plan gives: the errors of load_stock and load_layout.
[[nodiscard]] Diagnostics check_names(const plan::Plan& plan, World& world);

}  // namespace loopledger::commands
