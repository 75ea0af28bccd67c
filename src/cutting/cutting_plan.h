// SPDX-License-Identifier: MIT
//
// Figure 12: which motor is cut from which piece of one strip. The order of aims:
//   1. cut every motor; if that can't be, the most motors, then the plan's order
//   2. least scrap: remnants of touched pieces shorter than `keep`; nothing left is no scrap
//   3. fewest pieces touched
//   4. the longest piece left on the shelf, untouched ones too
//
// Exact on a grid of whole nanometres: a motor is rounded up to it, a piece down, so no plan cuts
// more than a piece holds (cutting/cut_problem.h).
//
// Method. Equal motors are one kind; a plan is how many of each kind a piece gives up.
// - Aim 1 (cut_choice.h): all; else the most, by the shortest; then motor by motor in the plan's
//   order, each kept if a plan of the full number can still keep it.
// - Aims 2 to 4 (cut_aims.h): a bound for all three (cut_reach.h: which totals the pieces reach,
//   each by its own limits, motors split between pieces at will); a plan that meets it is proven.
//   Else a good plan is made better by parts, three or four pieces at a time (cut_mend.h), and then
//   one search asks for a plan a step better than the best, until there is none.
// - The search (cut_search.h) goes piece by piece, the shortest first, through all fillings that
//   the bound lets pass; a table over the piece's length (cut_table.h) spares it dead ends, and
//   what is left to cut is remembered where it failed (cut_failed.h, at most 4 MB).
//
// Cost. The problem is NP-hard; worst case exponential in pieces and kinds. A step is about 10 ns.
// Nights of 60 motors of up to 15 lengths (150 to 1300 mm) from 12 pieces (0.3 to 5 m), all drawn
// alike, are proven: in whole millimetres 199 of 200, 198 of them within 0.1 s; in hundredths of a
// micrometre 179, 165 of them within 0.1 s (tests/bench/RESULTS.md). Hard are nights made so that
// the strip only just suffices: of those with 2 to 10 % to spare a quarter stays unproven, and with
// lengths that are no whole millimetres (from masses), which leave hardly any exact sums, half end
// some millimetres from the bound of aim 2, or with a longest piece that might be longer; with
// pieces of their own density, where totals are only bracketed, most. Beyond 64 pieces aims 3 and 4
// are bounded by lengths alone and not searched.
//
// Tried and dropped: asking for the bound first and halving towards the best (most of the effort
// went into targets far from both ends; one step above the best is one proof); the longest pieces
// first (half as many nights proven); a table of failures sixteen times the size (nothing gained);
// tables in exact cells up to 65,536 (tenths of millimetres then cost more than they spare); ten
// times the effort (of 45 unproven nights 18 more are proven, the others take seconds); prices for
// kinds, scrap and pieces by Lagrangian relaxation, as a bound and to cut the search short: at best
// a linear program over whole fillings, which is strong where pieces are equal (csp-100 of
// tests/published/cutting_stock_test.cpp) but proved no night more of a shelf whose pieces differ.
#pragma once

#include <cstdint>
#include <vector>

#include "base/quantity.h"
#include "cutting/task.h"

namespace loopledger::cutting {

/// Steps of the search (sixteen words of a table, or a filling tried) after which it gives up the
/// proof. Counted, not timed, so that the same plan gives the same answer on every machine.
inline constexpr std::int64_t kCuttingEffort = 40'000'000;

/// @pre every row of `cut` has one entry per piece, all > 0
[[nodiscard]] CuttingResult make_cutting_plan(const CuttingTask& task,
                                              std::int64_t effort = kCuttingEffort);

/// What is left of each piece, by piece; its full length when it is not touched.
[[nodiscard]] std::vector<Length> remnants(const CuttingTask& task, const CuttingResult& result);

}  // namespace loopledger::cutting
