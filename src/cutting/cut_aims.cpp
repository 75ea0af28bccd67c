// SPDX-License-Identifier: MIT
#include "cutting/cut_aims.h"

#include <algorithm>
#include <array>
#include <numeric>

#include "cutting/cut_mend.h"

namespace loopledger::cutting {
namespace {

constexpr std::array<Style, 4> kPlain{{
    {},
    {.short_first = false},
    {.untouched_first = false},
    {.fewest_first = true},
}};
constexpr std::uint32_t kShuffles = 12;

/// Several styles with `each` effort, then the first with all of `most`.
Answer try_styles(const Problem& problem, const Limits& limits, const Target& target,
                  std::int64_t each, std::int64_t most, Effort& effort) {
  Answer answer;
  const auto run = [&](const Style& style, std::int64_t share) {
    Effort part{std::min(share, effort.left)};
    const std::int64_t before = part.left;
    answer = Search(problem, limits, style).run(target, part);
    effort.left -= before - part.left;
    return answer.verdict != Verdict::unknown;
  };
  const std::int64_t end = effort.left - most;
  for (const Style& style : kPlain) {
    if (effort.left <= end || run(style, each)) {
      return answer;
    }
  }
  for (std::uint32_t i = 1; i <= kShuffles; ++i) {
    if (effort.left <= end || run({.short_first = i % 3 != 0, .shuffle = i * 7919}, each)) {
      return answer;
    }
  }
  if (effort.left > end) {
    run({}, effort.left - end);
  }
  return answer;
}

Grid step_of(const Problem& problem) {
  Grid step = 0;
  for (std::size_t p = 0; p < problem.pieces(); ++p) {
    step = std::gcd(std::gcd(step, problem.whole[p]), problem.room[p]);
    for (const auto& row : problem.need) {
      step = std::gcd(step, row[p]);
    }
  }
  return std::max<Grid>(step, 1);
}

/// One aim after the other.
class Stages {
 public:
  Stages(const Problem& problem, const Fills& start, Effort& effort, bool by_parts)
      : problem_(problem),
        limits_(limits_of(problem)),
        effort_(effort),
        share_(effort.left / 4),
        step_(step_of(problem)),
        by_parts_(by_parts && problem.pieces() > 4) {
    best_.fills = start;
    best_.aims = aims_of(problem, start);
    best_.bound = bound_of(problem, limits_);
  }

  Best run() {
    const Aims bound = best_.bound;
    const bool few = problem_.pieces() <= kMostPiecesCounted;
    if (few && !met()) {
      ask({bound.scrap, bound.touched, bound.longest}, share_ / 8);
    }
    if (by_parts_ && !met()) {
      mend();
    }
    if (!few) {
      best_.proven = met() ? 3 : best_.aims.scrap <= bound.scrap ? 1 : 0;
      return best_;
    }
    const bool scrap_least = least_scrap();
    const bool fewest = fewest_touched();
    const bool longest = longest_left();
    best_.proven = !scrap_least ? 0 : !fewest ? 1 : !longest ? 2 : 3;
    return best_;
  }

 private:
  [[nodiscard]] bool met() const { return !better(best_.bound, best_.aims); }

  Verdict ask(const Target& target, std::int64_t most) {
    Answer answer = try_styles(problem_, limits_, target, most / 40, most, effort_);
    if (answer.verdict == Verdict::found) {
      offer(std::move(answer.fills));
    }
    return answer.verdict;
  }

  void offer(Fills fills) {
    const Aims aims = aims_of(problem_, fills);
    if (better(aims, best_.aims)) {
      best_.aims = aims;
      best_.fills = std::move(fills);
    }
  }

  void mend() {
    const auto solve = [](const Problem& part, const Fills& fills, Effort& effort) {
      return Stages(part, fills, effort, false).run().fills;
    };
    Effort some{share_ / 2};
    best_.fills = mended(problem_, best_.fills, best_.bound, solve, some);
    best_.aims = aims_of(problem_, best_.fills);
    effort_.left -= share_ / 2 - some.left;
  }

  /// Asks for a plan one step better than the best so far, again and again, until there is none:
  /// then `bound` is what it has. Values go in steps from `now`. True when they meet.
  template <class Now, class TargetAt>
  bool close_in(Grid& bound, Grid step, const Now& now, const TargetAt& target_at) {
    std::int64_t most = std::min(share_, effort_.left);
    Search exact(problem_, limits_, {});
    while (bound < now() && most > 0) {
      Effort part{most};
      Answer answer = exact.run(target_at(now() - step), part);
      effort_.left -= most - part.left;
      most = part.left;
      if (answer.verdict == Verdict::none) {
        bound = now();
      } else if (answer.verdict == Verdict::found) {
        offer(std::move(answer.fills));
      }
    }
    return bound >= now();
  }

  bool least_scrap() {
    const int all = static_cast<int>(problem_.pieces());
    return close_in(
        best_.bound.scrap, step_, [&] { return best_.aims.scrap; },
        [&](Grid scrap) {
          return Target{scrap, all, 0};
        });
  }

  bool fewest_touched() {
    Grid bound = bound_of(problem_, limits_, {best_.aims.scrap, 0, 0}).touched;
    const bool closed = close_in(
        bound, 1, [&] { return static_cast<Grid>(best_.aims.touched); },
        [&](Grid touched) {
          return Target{best_.aims.scrap, static_cast<int>(touched), 0};
        });
    best_.bound.touched = static_cast<int>(bound);
    return closed;
  }

  bool longest_left() {
    const Aims known{best_.aims.scrap, best_.aims.touched, 0};
    const Grid most = bound_of(problem_, limits_, known).longest;
    Grid off = 0;  // below the most, as `close_in` lowers
    const bool closed = close_in(
        off, step_, [&] { return most - best_.aims.longest; },
        [&](Grid less) {
          return Target{best_.aims.scrap, best_.aims.touched, most - less};
        });
    best_.bound.longest = most - off;
    return closed;
  }

  const Problem& problem_;
  Limits limits_;
  Effort& effort_;
  std::int64_t share_;
  Grid step_;  ///< what scraps and remnants differ by at least
  bool by_parts_;
  Best best_;
};

}  // namespace

Answer pack(const Problem& problem, const Limits& limits, Effort& effort) {
  const Target any{kNoLimit, static_cast<int>(problem.pieces()), 0};
  return try_styles(problem, limits, any, effort.left / 40, effort.left, effort);
}

Best best_plan(const Problem& problem, const Fills& start, Effort& effort) {
  return Stages(problem, start, effort, true).run();
}

}  // namespace loopledger::cutting
