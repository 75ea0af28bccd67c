// SPDX-License-Identifier: MIT
//
// The search behind calc/match.h: of points in up to three dimensions, the N in the box whose edges
// have the least sum. Exact.
//
// Method. A set's box is a window in x, one in y and one in z. Points at the same place are one
// cell.
// - The window in x is a pair of cells, the first and the last of the set: only cells between them
//   count, and of those only the ones whose box with both is still better than the best so far.
// - Among those, for each y where a window may begin, cells are put one by one, by y, into a list
//   sorted by z; each time, the tightest windows of N that hold the new one are looked at.
// - The best so far comes from the neighbours of each cell to begin with. A pair is passed over
//   when it has too few cells left, or when the tightest window of N in y and the one in z, each
//   by itself, already add up to no less.
// - A second pass with the best sum as its limit takes, of every box within it, the N motors that
//   come first: of equal sets, the first.
// With one or two figures x is left out, and y too.
//
// Worst case n^2 pairs times n^2 windows in y times n: a polynomial in n whatever N is. What makes
// it quick is that the best so far leaves few neighbours: 5000 motors and N up to 12 take a quarter
// of a second, N = 30 up to five. With N = 100 of thousands of motors that are nowhere alike the
// effort may be used up; the best so far is returned then, not proven.
//
// Dropped: all subsets (grows with n^N); windows over sorted values alone, without a pair of cells
// at their ends (each slab holds cells from all over the other figures: some 10^11 steps for
// n = 5000); summing distances to a mean (one odd motor hides in it, and no exact method is as
// quick).
#pragma once

#include <array>
#include <cstdint>
#include <vector>

namespace loopledger::calc {

/// Motors of one place; coordinates that are not used are 0, the first ones first.
struct MatchCell {
  std::array<double, 3> at{};       ///< x, y, z in units of the ledger's spread
  std::vector<std::size_t> motors;  ///< rising
};

struct MatchFound {
  std::vector<std::size_t> motors;  ///< rising
  bool proven = false;
};

/// @pre cells rise by `at`, none is empty, and they hold at least `wanted` > 0 motors
[[nodiscard]] MatchFound search_match(const std::vector<MatchCell>& cells, std::size_t wanted,
                                      double tie, std::int64_t effort);

}  // namespace loopledger::calc
