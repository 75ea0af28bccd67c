// SPDX-License-Identifier: MIT
//
// What each piece by itself can give up at most, whatever the others do: the largest sums of
// motors that fit it. Found exactly by splitting the kinds in two halves, all sums of each half
// sorted, and one walk through both. Halves with too many sums are not listed; the limit is then
// the piece's room, which is still a bound.
#pragma once

#include "cutting/cut_problem.h"

namespace loopledger::cutting {

struct Limits {
  std::vector<Grid> least;    ///< by piece: the shortest motor
  std::vector<Grid> fullest;  ///< the largest fill; 0: it holds none
  std::vector<Grid> kept;     ///< the largest fill that leaves a remnant to keep; 0: there is none
};

[[nodiscard]] Limits limits_of(const Problem& problem);

}  // namespace loopledger::cutting
