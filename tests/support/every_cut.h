// SPDX-License-Identifier: MIT
//
// Slow and obviously right: the best cutting plan of whole millimetres, by looking at every way to
// put every motor on a piece or on none. For tests of cutting/cutting_plan.h.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>
#include <vector>

#include "cutting/cutting_plan.h"

namespace loopledger::test {

/// Motors and pieces in whole mm: `cut[motor][piece]`.
struct SmallNight {
  std::vector<int> pieces;
  int ends = 0;
  int keep = 0;
  std::vector<std::vector<int>> cut;
};

inline cutting::CuttingTask task_of(const SmallNight& night) {
  cutting::CuttingTask task;
  for (const int piece : night.pieces) {
    task.pieces.push_back({Length::mm(piece), Length::mm(night.ends)});
  }
  for (const auto& row : night.cut) {
    task.cut.emplace_back();
    for (const int length : row) {
      task.cut.back().push_back(Length::mm(length));
    }
  }
  task.keep = Length::mm(night.keep);
  return task;
}

/// The four aims as one value that is compared from the front; larger is better.
using CutAims = std::tuple<int, std::vector<bool>, int, int, int>;

/// By motor, its piece, or one past the last piece. Empty when a piece gives up more than it has.
inline std::optional<CutAims> aims_of(const SmallNight& night, const std::vector<std::size_t>& at) {
  const std::size_t pieces = night.pieces.size();
  std::vector<int> used(pieces, 0);
  std::vector<bool> is_cut(at.size(), false);
  int count = 0;
  for (std::size_t m = 0; m < at.size(); ++m) {
    if (at[m] < pieces) {
      used[at[m]] += night.cut[m][at[m]];
      is_cut[m] = true;
      ++count;
    }
  }
  int scrap = 0;
  int touched = 0;
  int longest = 0;
  for (std::size_t p = 0; p < pieces; ++p) {
    int left = night.pieces[p];
    if (used[p] > 0) {
      left -= night.ends + used[p];
      if (left < 0) {
        return std::nullopt;
      }
      ++touched;
      scrap += left < night.keep ? left : 0;
    }
    longest = std::max(longest, left);
  }
  return CutAims{count, is_cut, -scrap, -touched, longest};
}

inline CutAims best_of_every_cut(const SmallNight& night) {
  std::vector<std::size_t> at(night.cut.size(), 0);
  std::optional<CutAims> best;
  for (bool more = true; more;) {
    best = std::max(best, aims_of(night, at));
    more = false;
    for (std::size_t m = 0; m < at.size() && !more; ++m) {
      more = at[m] < night.pieces.size();
      at[m] = more ? at[m] + 1 : 0;
    }
  }
  return *best;
}

inline std::optional<CutAims> aims_of(const SmallNight& night, const cutting::CuttingResult& plan) {
  std::vector<std::size_t> at;
  for (const auto& piece : plan.piece_of) {
    at.push_back(piece.value_or(night.pieces.size()));
  }
  return aims_of(night, at);
}

}  // namespace loopledger::test
