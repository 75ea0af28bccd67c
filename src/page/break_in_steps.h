// SPDX-License-Identifier: MIT
//
// The steps of a break-in as a table, for motors that all break in alike. Private to page/.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "page/sheet.h"
#include "records/planned.h"

namespace loopledger::page {

/// One pass through one step: step 2 with repeat 2 gives "2a" and "2b".
struct Pass {
  std::string name;
  bool winds = false;
};

[[nodiscard]] std::vector<Pass> passes_of(const records::Planned& planned);

/// What to do at each step, large. Nothing for motors without a recipe.
void draw_steps(Sheet& sheet, const records::Planned& planned, Units units);

/// Height that draw_steps takes.
[[nodiscard]] double steps_height(const records::Planned& planned);

}  // namespace loopledger::page
