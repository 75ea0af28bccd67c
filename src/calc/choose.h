// SPDX-License-Identifier: MIT
//
// Choosing a motor: what each strip on the shelf would give for a group that has a rule and no size
// yet. All motors are made to the same limit, so they differ in loop, turns and torque; which one
// is right for a model is the builder's to say, and nothing here says it.
#pragma once

#include <vector>

#include "base/diagnostic.h"
#include "calc/figures.h"
#include "calc/strip_figures.h"
#include "plan/plan.h"

namespace loopledger::calc {

/// Of the strip that the group names, or of all. Of the strands that it gives, or 2, 4, 6 … up to
/// the first loop that is shorter than the hook distance (without one: up to 6). What stands in the
/// way of every choice is reported, once, at the group.
[[nodiscard]] std::vector<Choice> choices_for(const plan::Plan& plan, std::size_t group,
                                              const std::vector<StripFigures>& strips,
                                              Diagnostics& problems);

}  // namespace loopledger::calc
