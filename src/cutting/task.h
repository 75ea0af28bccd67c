// SPDX-License-Identifier: MIT
//
// A cutting problem of one strip in lengths, and its plan: plain data. It knows nothing of motors
// but what each takes from each piece. cutting/cutting_plan.h solves it.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/quantity.h"

namespace loopledger::cutting {

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
  std::size_t touched = 0;      ///< pieces
  Length longest;               ///< piece left on the shelf
  bool proven = false;          ///< no plan is better, in the order of the aims
  std::size_t aims_proven = 0;  ///< so many aims, in their order, can't be bettered
  // How far an aim may be from the best, the aims before it as they are; 0 when proven.
  std::size_t motors_gap = 0;   ///< motors that might be cut besides
  Length gap;                   ///< scrap above the bound
  std::size_t touched_gap = 0;  ///< pieces above the bound
  Length longest_gap;           ///< below the bound
  std::int64_t effort = 0;      ///< steps taken
};

inline constexpr std::size_t kCuttingAims = 4;

/// A remnant this short counts as nothing left.
inline constexpr Length kNothingLeft = Length::mm(1e-6);

/// Whether a remnant is too short to keep, and not nothing. One that is as long as `keep` but for
/// the noise of sums is kept.
[[nodiscard]] constexpr bool is_scrap(Length left, Length keep) {
  return left > kNothingLeft && left + kNothingLeft < keep;
}

}  // namespace loopledger::cutting
