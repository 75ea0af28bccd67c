// SPDX-License-Identifier: MIT
//
// A plan by simple filling: motors by falling length, each into the touched piece that it fills
// best; a new piece only when none holds it. Quick, often good, never proven.
#pragma once

#include <optional>

#include "cutting/cut_problem.h"

namespace loopledger::cutting {

/// Empty when these motors did not all find a place, in either order of the pieces.
[[nodiscard]] std::optional<Fills> filled_greedily(const Problem& problem, const Counts& counts);

}  // namespace loopledger::cutting
