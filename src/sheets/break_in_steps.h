// SPDX-License-Identifier: MIT
//
// The steps of a break-in as a table, for motors that all break in alike. Private to page/.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "page/sheet.h"
#include "records/planned.h"

namespace loopledger::sheets {

/// One pass through one step: step 2 with repeat 2 gives "2a" and "2b". A step that is repeated
/// more often than anyone writes down has one pass, to keep a tally of.
struct Pass {
  std::string name;
  bool winds = false;
  int tally = 0;  ///< so many times; 0: once
};

[[nodiscard]] std::vector<Pass> passes_of(const records::Planned& planned);

/// What to do at each step, large, each action on a line of its own. Nothing for motors without a
/// recipe. Over several pages the table's head comes again.
void draw_steps(page::Sheet& sheet, const records::Planned& planned, Units units);

/// Height that draw_steps takes when all of it is on one page.
[[nodiscard]] double steps_height(page::Sheet& sheet, const records::Planned& planned, Units units);

/// "1190 turns = 79 cranks", the cranks on one line (spaces that don't break): never more than
/// `most`; no cranks without a winder's ratio.
[[nodiscard]] std::string turns_at_most(const records::Planned& planned, Turns most);

}  // namespace loopledger::sheets
