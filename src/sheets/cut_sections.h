// SPDX-License-Identifier: MIT
//
// The sections of the cut sheet, in their order. Private to page/.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "calc/figures.h"
#include "page/sheet.h"
#include "plan/plan.h"

namespace loopledger::sheets {

/// Motors whose printed figures are all the same, of whichever group.
struct Kind {
  const records::Planned* planned = nullptr;
  const plan::MotorGroup* group = nullptr;  ///< of the first
  std::vector<std::size_t> motors;          ///< indices into Batch::motors
};

/// In the order of the batch.
[[nodiscard]] std::vector<Kind> kinds_of(const plan::Plan& plan, const calc::Batch& batch);

/// Whether a motor of the batch refers to entry `index` of one of the plan's lists. A plan may take
/// more from its shelf than it uses, and a sheet may be of some of its motors.
[[nodiscard]] bool is_used(const plan::Plan& plan, const calc::Batch& batch,
                           std::optional<std::size_t> plan::MotorGroup::*list, std::size_t index);

void draw_bench_checks(page::Sheet& sheet, const plan::Plan& plan,
                       const calc::Batch& batch);  // cut_start.cpp
void draw_fetch(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch);
void draw_cutting(page::Sheet& sheet, const plan::Plan& plan,
                  const calc::Batch& batch);  // cut_bars.cpp
void draw_owners(page::Sheet& sheet, const plan::Plan& plan,
                 const calc::Batch& batch);  // cut_owners.cpp

inline constexpr std::size_t kTrimColumns = 12;
/// What to snip for so many mg over, as printed; strip and, where the strip has several rows, the
/// pieces or the motors that it holds for.
struct TrimRow {
  std::string strip;
  Mass step;
  std::array<std::string, kTrimColumns> snips;
  std::set<std::string> pieces;     ///< when each piece has one row
  std::vector<std::size_t> motors;  ///< else
  friend bool operator==(const TrimRow&, const TrimRow&) = default;
};
/// Of these motors of the batch: strips, and what of one has snips of its own, each once.
[[nodiscard]] std::vector<TrimRow> trim_rows(const calc::Batch& batch,
                                             std::span<const std::size_t> motors,
                                             Units units);  // cut_trimming.cpp
[[nodiscard]] double trimming_height(page::Sheet& sheet, const calc::Batch& batch,
                                     std::span<const TrimRow> rows, Units units);
/// @pre rows is not empty; its height has room on the page
void draw_trimming(page::Sheet& sheet, const calc::Batch& batch, std::span<const TrimRow> rows,
                   Units units);

/// One picture for all motors whose picture is the same.
void draw_budgets(page::Sheet& sheet, const plan::Plan& plan,
                  const calc::Batch& batch);  // cut_budget.cpp
void draw_rules(page::Sheet& sheet, const plan::Plan& plan,
                const calc::Batch& batch);  // cut_notes.cpp
void draw_advice(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch);
void draw_cautions(page::Sheet& sheet);
void draw_defaults(page::Sheet& sheet, const plan::Plan& plan,
                   const calc::Batch& batch);  // cut_defaults.cpp

}  // namespace loopledger::sheets
