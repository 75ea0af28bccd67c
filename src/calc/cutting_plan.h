// SPDX-License-Identifier: MIT
//
// Figure 12: which motor is cut from which piece of one strip. The order of aims:
//   1. cut every motor; if that can't be, the most motors, then the plan's order
//   2. least scrap: remnants of touched pieces shorter than `keep`; nothing left is no scrap
//   3. fewest pieces touched
//   4. the longest piece left on the shelf, untouched ones too
//
// Method for now: several greedy fillings (motors by falling length; each into the fullest touched
// piece that holds it; pieces in several orders; pieces filled one by one as tightly as a
// subset-sum table allows), the best by the aims above. It is good, it is not proven, and it says
// so: `gap` is the scrap above the bound of no scrap at all.
#pragma once

#include <optional>
#include <vector>

#include "base/quantity.h"

namespace loopledger::calc {

struct StripPiece {
  Length length;
  Length ends;  ///< lost once when the piece is touched
};

/// What each motor takes from each piece: `cut[motor][piece]`. Motors in the plan's order.
struct CuttingTask {
  std::vector<StripPiece> pieces;
  std::vector<std::vector<Length>> cut;
  Length keep;
};

struct CuttingResult {
  std::vector<std::optional<std::size_t>> piece_of;  ///< by motor; empty: not cut
  Length scrap;
  bool proven = false;
  Length gap;  ///< scrap above the bound
};

/// @pre every row of `cut` has one entry per piece, all > 0
[[nodiscard]] CuttingResult make_cutting_plan(const CuttingTask& task);

/// What is left of each piece, by piece; its full length when it is not touched.
[[nodiscard]] std::vector<Length> remnants(const CuttingTask& task, const CuttingResult& result);

/// A remnant this short counts as nothing left.
inline constexpr Length kNothingLeft = Length::mm(1e-6);

}  // namespace loopledger::calc
