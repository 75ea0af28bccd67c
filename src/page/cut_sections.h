// SPDX-License-Identifier: MIT
//
// The sections of the cut sheet, in their order. Private to page/.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "calc/figures.h"
#include "page/sheet.h"
#include "plan/plan.h"

namespace loopledger::page {

/// Motors whose printed figures are all the same, of whichever group.
struct Kind {
  const records::Planned* planned = nullptr;
  const plan::MotorGroup* group = nullptr;  ///< of the first
  std::vector<std::size_t> motors;          ///< indices into Batch::motors
};

/// In the order of the batch.
[[nodiscard]] std::vector<Kind> kinds_of(const plan::Plan& plan, const calc::Batch& batch);

/// Whether a motor group refers to entry `index` of one of the plan's lists. A plan may take more
/// from its shelf than it uses.
[[nodiscard]] bool is_used(const plan::Plan& plan,
                           std::optional<std::size_t> plan::MotorGroup::*list, std::size_t index);

void draw_bench_checks(Sheet& sheet, const plan::Plan& plan);  // cut_start.cpp
void draw_fetch(Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch);
void draw_cutting(Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch);  // cut_bars.cpp
void draw_owners(Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch);  // cut_owners.cpp
/// A strip of mg over -> length to snip, for one linear density.
void draw_trimming(Sheet& sheet, const Kind& kind, Units units);             // cut_trimming.cpp
void draw_budget(Sheet& sheet, const Kind& kind, const calc::Batch& batch);  // cut_budget.cpp
void draw_rules(Sheet& sheet, const plan::Plan& plan);                       // cut_notes.cpp
void draw_advice(Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch);
void draw_cautions(Sheet& sheet);
void draw_defaults(Sheet& sheet, const plan::Plan& plan,
                   const calc::Batch& batch);  // cut_defaults.cpp

}  // namespace loopledger::page
