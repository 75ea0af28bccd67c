// SPDX-License-Identifier: MIT
//
// What a strip's samples say of themselves: too few, one that is unlike the others, all of them off
// by the same or by ten times, too unlike each other to be of use. Everything is cut and weighed by
// the linear density that comes from them.
#pragma once

#include "base/diagnostic.h"
#include "plan/plan.h"

namespace loopledger::calc {

/// Note `few-samples`: fewer than three. Warning `sample-odd`: one whose mass for its length is a
/// tenth or more off the middle one's. Warning `samples-offset`: their line misses 0 by more than
/// chance (99 %, Student's t, [gum-h3]) and by more than scale and ruler allow. Warning
/// `samples-thickness`: with its width the strip would be thinner than 0.3 mm or thicker than 3 mm;
/// `samples-density`, without a width: under 0.1 or over 100 g/m; `samples-scatter`: a standard
/// uncertainty of more than 5 % of the linear density (bounds: common sense, no source). The last
/// three are not told beside a `sample-odd`, which explains them.
[[nodiscard]] Diagnostics check_samples(const plan::Strip& strip, const plan::Bench& bench);

}  // namespace loopledger::calc
