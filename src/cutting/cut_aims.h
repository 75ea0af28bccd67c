// SPDX-License-Identifier: MIT
//
// Aims 2 to 4 for a set of motors that can all be cut: least scrap, then fewest pieces, then the
// longest piece left.
//
// The bound comes first. A plan that meets it in all three aims is proven at once, and that is what
// the first searches ask for, in several styles with a little effort each before one gets much: a
// search that began badly is soon left for one that began otherwise. Otherwise aim after aim: is
// there a plan one step better than the best so far, again and again, until there is none, which is
// the proof, or the aim's share of the effort is used up.
#pragma once

#include "cutting/cut_search.h"

namespace loopledger::cutting {

struct Best {
  Fills fills;
  Aims aims;       ///< of `fills`
  Aims bound;      ///< no plan is better, aim by aim as far as the aims before are met
  int proven = 0;  ///< so many of the three aims, in their order, can't be bettered
};

/// Any plan that cuts all motors. Unknown when the effort was used up.
[[nodiscard]] Answer pack(const Problem& problem, const Limits& limits, Effort& effort);

/// @pre `start` cuts all motors of the problem
[[nodiscard]] Best best_plan(const Problem& problem, const Fills& start, Effort& effort);

}  // namespace loopledger::cutting
