// SPDX-License-Identifier: MIT
//
// The cutting plan on a grid of whole nanometres, so that sums are exact: motors that take the same
// from every piece are one kind, and a plan is how many of each kind a piece gives up. A motor is
// rounded up and a piece down, so no plan cuts more than a piece holds; what is within a hundredth
// of a nanometre of the grid counts as on it (noise of the conversion).
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "cutting/task.h"

namespace loopledger::cutting {

using Grid = std::int64_t;  ///< nanometres
inline constexpr Grid kNoLimit = std::numeric_limits<Grid>::max() / 4;

using Counts = std::vector<int>;  ///< by kind

struct Problem {
  std::vector<Grid> whole;              ///< by piece: as it lies on the shelf
  std::vector<Grid> room;               ///< by piece: whole less its ends; may be negative
  std::vector<std::vector<Grid>> need;  ///< need[kind][piece]: what a motor takes
  Counts count;                         ///< motors of each kind
  Grid keep = 0;                        ///< a shorter remnant is scrap
  bool alike = true;                    ///< a kind takes the same from every piece

  [[nodiscard]] std::size_t pieces() const { return room.size(); }
  [[nodiscard]] std::size_t kinds() const { return need.size(); }
};

/// The problem, kinds by falling length on the first piece; `motors[kind]` in the plan's order.
struct Kinds {
  Problem problem;
  std::vector<std::vector<std::size_t>> motors;
};
[[nodiscard]] Kinds on_grid(const CuttingTask& task);

/// By piece, what is cut from it.
using Fills = std::vector<Counts>;

/// Aims 2 to 4 of a plan.
struct Aims {
  Grid scrap = kNoLimit;
  int touched = 0;
  Grid longest = 0;
};
[[nodiscard]] bool better(const Aims& a, const Aims& b);
[[nodiscard]] Grid fill_length(const Problem& problem, const Counts& fill, std::size_t piece);
[[nodiscard]] Aims aims_of(const Problem& problem, const Fills& fills);

[[nodiscard]] int total(const Counts& counts);

/// Steps of a search, counted so that the same plan gives the same answer on every machine.
struct Effort {
  std::int64_t left = 0;
  [[nodiscard]] bool spent() const { return left <= 0; }
};

}  // namespace loopledger::cutting
