// SPDX-License-Identifier: MIT
//
// For one piece: which sums of the first kinds can still be completed to an allowed filling. One
// row of bits over the piece's length for each kind; row by row from the last kind to the first.
#pragma once

#include "cutting/cut_reach.h"

namespace loopledger::cutting {

/// Lengths of one piece in cells.
struct Scale {
  Grid unit = 1;
  bool exact = true;       ///< every length is a whole number of units
  std::vector<int> cells;  ///< by kind; to the nearest when not exact
};
[[nodiscard]] Scale scale_of(const Problem& problem, std::size_t piece);

class FillTable {
 public:
  /// Of the kinds that are left and short enough. Returns the steps it took.
  std::int64_t build(const Problem& problem, std::size_t piece, const Scale& scale,
                     const Counts& left, const std::vector<FillRange>& allowed);
  [[nodiscard]] const std::vector<std::size_t>& kinds() const { return kinds_; }
  /// How many motors of the `level`th kind the piece may take at most.
  [[nodiscard]] int most(std::size_t level) const { return most_[level]; }
  /// Whether `cell` after `level` kinds can be completed.
  [[nodiscard]] bool may(std::size_t level, std::size_t cell) const {
    return cell < words_ * 64 &&
           ((rows_[level * words_ + cell / 64] >> (cell % 64)) & std::uint64_t{1}) != 0;
  }

 private:
  void allow(const Scale& scale, const std::vector<FillRange>& allowed, std::size_t cells,
             Grid margin);
  void add_shifted(std::size_t level, std::size_t cells);

  std::size_t words_ = 0;
  std::vector<std::size_t> kinds_;
  std::vector<int> most_;
  std::vector<std::uint64_t> rows_;
};

}  // namespace loopledger::cutting
