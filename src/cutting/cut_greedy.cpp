// SPDX-License-Identifier: MIT
#include "cutting/cut_greedy.h"

#include <algorithm>
#include <numeric>

namespace loopledger::cutting {
namespace {

std::optional<Fills> filled(const Problem& problem, const Counts& counts,
                            const std::vector<std::size_t>& order) {
  Fills fills(problem.pieces(), Counts(problem.kinds(), 0));
  std::vector<Grid> left = problem.room;
  for (std::size_t t = 0; t < problem.kinds(); ++t) {
    for (int i = 0; i < counts[t]; ++i) {
      std::optional<std::size_t> best;
      for (const std::size_t p : order) {
        if (problem.need[t][p] > left[p]) {
          continue;
        }
        const bool touched = left[p] < problem.room[p];
        const bool best_touched = best && left[*best] < problem.room[*best];
        if (!best || (touched && (!best_touched || left[p] < left[*best]))) {
          best = p;
        }
      }
      if (!best) {
        return std::nullopt;
      }
      left[*best] -= problem.need[t][*best];
      ++fills[*best][t];
    }
  }
  return fills;
}

}  // namespace

std::optional<Fills> filled_greedily(const Problem& problem, const Counts& counts) {
  std::vector<std::size_t> order(problem.pieces());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(
      order, [&](std::size_t a, std::size_t b) { return problem.room[a] > problem.room[b]; });
  auto longest_first = filled(problem, counts, order);
  if (longest_first) {
    return longest_first;
  }
  std::ranges::reverse(order);
  return filled(problem, counts, order);
}

}  // namespace loopledger::cutting
