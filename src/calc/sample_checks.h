// SPDX-License-Identifier: MIT
//
// What a strip's samples say of themselves: too few, one that is unlike the others, all of them off
// by the same. Everything is cut and weighed by the linear density that comes from them.
#pragma once

#include "base/diagnostic.h"
#include "plan/plan.h"

namespace loopledger::calc {

/// Note `few-samples`: fewer than three. Warning `sample-odd`: one whose mass for its length is a
/// tenth or more off the middle one's. Warning `samples-offset`: their line misses 0 by more than
/// chance (99 %, Student's t, [gum-h3]) and by more than scale and ruler allow.
[[nodiscard]] Diagnostics check_samples(const plan::Strip& strip, const plan::Bench& bench);

}  // namespace loopledger::calc
