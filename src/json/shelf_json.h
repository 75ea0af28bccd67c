// SPDX-License-Identifier: MIT
//
// What the shelf holds once a night is cut, for the commands that tell it.
#pragma once

#include "calc/figures.h"
#include "json/json.h"
#include "plan/plan.h"

namespace loopledger::json {

/// `[{strip, pieces: [{tag, length_mm, mass_g}]}]`; empty when nothing was cut.
[[nodiscard]] Json shelf_json(const plan::Plan& plan, const calc::Batch& batch);

/// `[{motors, count}]`: further motors of each group that the shelf would give afterwards.
[[nodiscard]] Json more_json(const plan::Plan& plan, const calc::Batch& batch);

}  // namespace loopledger::json
