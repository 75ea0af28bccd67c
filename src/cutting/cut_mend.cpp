// SPDX-License-Identifier: MIT
#include "cutting/cut_mend.h"

#include <algorithm>
#include <numeric>

namespace loopledger::cutting {
namespace {

constexpr std::int64_t kPartEffort = 60'000;
constexpr int kVainRounds = 30;  ///< without a better plan, before it is left at that

/// Some pieces of the problem with what is cut from them.
struct Part {
  std::vector<std::size_t> pieces;
  std::vector<std::size_t> kinds;
  Problem problem;
  Fills fills;
};

Part part_of(const Problem& problem, const Fills& fills, std::vector<std::size_t> pieces) {
  Part part;
  part.pieces = std::move(pieces);
  part.problem.keep = problem.keep;
  part.problem.alike = problem.alike;
  part.fills.resize(part.pieces.size());
  for (const std::size_t p : part.pieces) {
    part.problem.whole.push_back(problem.whole[p]);
    part.problem.room.push_back(problem.room[p]);
  }
  for (std::size_t t = 0; t < problem.kinds(); ++t) {
    std::vector<Grid> row;
    int count = 0;
    for (const std::size_t p : part.pieces) {
      row.push_back(problem.need[t][p]);
      count += fills[p][t];
    }
    if (count == 0) {
      continue;
    }
    part.kinds.push_back(t);
    part.problem.need.push_back(std::move(row));
    part.problem.count.push_back(count);
    for (std::size_t i = 0; i < part.pieces.size(); ++i) {
      part.fills[i].push_back(fills[part.pieces[i]][t]);
    }
  }
  return part;
}

void put_back(const Part& part, Fills& fills) {
  for (std::size_t i = 0; i < part.pieces.size(); ++i) {
    Counts& fill = fills[part.pieces[i]];
    std::ranges::fill(fill, 0);
    for (std::size_t k = 0; k < part.kinds.size(); ++k) {
      fill[part.kinds[k]] = part.fills[i][k];
    }
  }
}

/// Draws pieces; every second time the one that loses most, or that leaves the most, is among them.
class Draw {
 public:
  explicit Draw(const Problem& problem) : problem_(problem), order_(problem.pieces()) {
    std::iota(order_.begin(), order_.end(), std::size_t{0});
  }
  std::vector<std::size_t> next(const Fills& fills, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
      std::swap(order_[i], order_[i + random() % (order_.size() - i)]);
    }
    if (const auto wanted = random() % 2 == 0 ? in_need(fills) : order_[0];
        std::find(order_.begin(), order_.begin() + static_cast<std::ptrdiff_t>(count), wanted) ==
        order_.begin() + static_cast<std::ptrdiff_t>(count)) {
      std::swap(order_[0], *std::ranges::find(order_, wanted));
    }
    return {order_.begin(), order_.begin() + static_cast<std::ptrdiff_t>(count)};
  }

 private:
  [[nodiscard]] std::size_t in_need(const Fills& fills) const {
    std::size_t most_scrap = 0;
    std::size_t longest = 0;
    Grid scrap = 0;
    Grid left = -1;
    for (std::size_t p = 0; p < problem_.pieces(); ++p) {
      if (total(fills[p]) == 0) {
        continue;
      }
      const Grid remnant = problem_.room[p] - fill_length(problem_, fills[p], p);
      if (remnant < problem_.keep && remnant > scrap) {
        scrap = remnant;
        most_scrap = p;
      }
      if (remnant > left) {
        left = remnant;
        longest = p;
      }
    }
    return scrap > 0 ? most_scrap : longest;
  }
  std::size_t random() {
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return static_cast<std::size_t>(state_ >> 33U);
  }

  const Problem& problem_;
  std::vector<std::size_t> order_;
  std::uint64_t state_ = 20260205;
};

}  // namespace

Fills mended(const Problem& problem, const Fills& start, const Aims& bound, const SolvePart& solve,
             Effort& effort) {
  Fills fills = start;
  Aims aims = aims_of(problem, fills);
  Draw draw(problem);
  int vain = 0;
  for (std::uint32_t round = 0; vain < kVainRounds && !effort.spent() && better(bound, aims);
       ++round) {
    const std::size_t count = std::min<std::size_t>(3 + round % 2, problem.pieces());
    Part part = part_of(problem, fills, draw.next(fills, count));
    Effort some{std::min(kPartEffort, effort.left)};
    const std::int64_t before = some.left;
    part.fills = solve(part.problem, part.fills, some);
    effort.left -= std::max<std::int64_t>(before - some.left, 1000);
    Fills next = fills;
    put_back(part, next);
    const Aims now = aims_of(problem, next);
    if (better(aims, now)) {
      continue;
    }
    vain = better(now, aims) ? 0 : vain + 1;
    fills = std::move(next);
    aims = now;
  }
  return fills;
}

}  // namespace loopledger::cutting
