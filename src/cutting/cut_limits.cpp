// SPDX-License-Identifier: MIT
#include "cutting/cut_limits.h"

#include <algorithm>
#include <array>
#include <map>

namespace loopledger::cutting {
namespace {

constexpr std::size_t kMostSums = 30000;

/// All sums up to `most` of motors of every second kind; empty when there are too many.
std::vector<Grid> sums_of(const Problem& problem, std::size_t piece, std::size_t first, Grid most) {
  std::vector<Grid> sums{0};
  std::vector<Grid> longer;
  for (std::size_t t = first; t < problem.kinds(); t += 2) {
    const Grid length = problem.need[t][piece];
    std::vector<Grid> last = sums;  // with one motor of this kind less
    for (int a = 0; a < problem.count[t] && !last.empty(); ++a) {
      longer.clear();
      for (const Grid sum : last) {
        if (sum + length <= most) {
          longer.push_back(sum + length);
        }
      }
      last = longer;
      std::vector<Grid> all;
      std::ranges::set_union(sums, longer, std::back_inserter(all));
      sums = std::move(all);
      if (sums.size() > kMostSums) {
        return {};
      }
    }
  }
  return sums;
}

using Halves = std::array<std::vector<Grid>, 2>;

/// The largest sum of both halves up to `most`; 0 when there is none.
Grid largest_sum(const Halves& halves, Grid least, Grid most) {
  if (most < least) {
    return 0;
  }
  if (halves[0].empty() || halves[1].empty()) {
    return most;
  }
  Grid largest = 0;
  std::size_t b = halves[1].size();
  for (const Grid a : halves[0]) {
    while (b > 0 && a + halves[1][b - 1] > most) {
      --b;
    }
    if (b == 0) {
      break;
    }
    largest = std::max(largest, a + halves[1][b - 1]);
  }
  return largest;
}

std::vector<Grid> column(const Problem& problem, std::size_t piece) {
  std::vector<Grid> lengths;
  for (const auto& row : problem.need) {
    lengths.push_back(row[piece]);
  }
  return lengths;
}

}  // namespace

Limits limits_of(const Problem& problem) {
  Limits limits;
  std::map<std::vector<Grid>, Halves> known;
  const Grid longest_room = problem.pieces() == 0 ? 0 : std::ranges::max(problem.room);
  for (std::size_t p = 0; p < problem.pieces(); ++p) {
    Grid least = kNoLimit;
    for (std::size_t t = 0; t < problem.kinds(); ++t) {
      least = problem.count[t] > 0 ? std::min(least, problem.need[t][p]) : least;
    }
    auto found = known.find(column(problem, p));
    if (found == known.end()) {
      Halves halves{sums_of(problem, p, 0, longest_room), sums_of(problem, p, 1, longest_room)};
      found = known.emplace(column(problem, p), std::move(halves)).first;
    }
    limits.least.push_back(least);
    limits.fullest.push_back(largest_sum(found->second, least, problem.room[p]));
    limits.kept.push_back(largest_sum(found->second, least, problem.room[p] - problem.keep));
  }
  return limits;
}

}  // namespace loopledger::cutting
