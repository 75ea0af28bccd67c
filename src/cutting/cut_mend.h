// SPDX-License-Identifier: MIT
//
// A good plan made better by parts: three or four pieces and what is cut from them are a small
// problem of their own, which the exact search solves at once; over and over for other pieces. It
// gathers what is spare in one piece after another. It proves nothing.
#pragma once

#include <functional>

#include "cutting/cut_problem.h"

namespace loopledger::cutting {

/// Solves a small problem: a plan no worse than the one given.
using SolvePart = std::function<Fills(const Problem&, const Fills&, Effort&)>;

/// Until the aims reach `bound`, or the effort is used up.
[[nodiscard]] Fills mended(const Problem& problem, const Fills& start, const Aims& bound,
                           const SolvePart& solve, Effort& effort);

}  // namespace loopledger::cutting
