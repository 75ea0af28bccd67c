// SPDX-License-Identifier: MIT
//
// Aim 1: which motors are cut. All; if that can't be, the most; of sets of that many the one that
// keeps the earliest motors of the plan (the first motor that two sets differ in is kept).
//
// How many: the shortest k motors can be cut if any k can. Which: motor by motor in the plan's
// order, each is kept when a plan of the full number exists that keeps it and all kept before; the
// rest of such a plan may as well be the shortest ones left. Kinds are asked at most once more
// after a no, since motors of a kind are alike.
//
// With pieces of own density "shorter" must hold on every piece. Where kinds cross (one is shorter
// on this piece, the other on that), every way to fill up the number is tried.
#pragma once

#include "cutting/cut_search.h"

namespace loopledger::cutting {

struct MotorChoice {
  Counts kept;  ///< by kind
  Fills fills;  ///< a plan that cuts them
  bool proven = false;
  int most = 0;  ///< no plan cuts more motors
};

[[nodiscard]] MotorChoice choose_motors(const Kinds& kinds, Effort& effort);

}  // namespace loopledger::cutting
