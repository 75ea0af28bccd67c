// SPDX-License-Identifier: MIT
#include "cutting/cut_choice.h"

#include <algorithm>
#include <functional>
#include <numeric>

#include "cutting/cut_aims.h"
#include "cutting/cut_greedy.h"

namespace loopledger::cutting {
namespace {

/// Kinds by rising length when that order is the same on every piece; else empty.
std::vector<std::size_t> rising(const Problem& problem) {
  std::vector<std::size_t> order(problem.kinds());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    return std::accumulate(problem.need[a].begin(), problem.need[a].end(), Grid{0}) <
           std::accumulate(problem.need[b].begin(), problem.need[b].end(), Grid{0});
  });
  for (std::size_t i = 1; i < order.size(); ++i) {
    for (std::size_t p = 0; p < problem.pieces(); ++p) {
      if (problem.need[order[i - 1]][p] > problem.need[order[i]][p]) {
        return {};
      }
    }
  }
  return order;
}

class Chooser {
 public:
  Chooser(const Kinds& kinds, Effort& effort)
      : kinds_(kinds),
        problem_(kinds.problem),
        limits_(limits_of(problem_)),
        effort_(effort),
        share_(effort.left / 8),
        rising_(rising(problem_)),
        places_(problem_.pieces()),
        reach_(problem_, limits_, ordered(places_),
               {kNoLimit, static_cast<int>(problem_.pieces()), 0},
               {0, demand_of(problem_, problem_.count)}) {}

  MotorChoice run() {
    const int all = total(problem_.count);
    out_.kept = Counts(problem_.kinds(), 0);
    out_.fills = Fills(problem_.pieces(), out_.kept);
    out_.proven = true;
    most_motors(all);
    if (total(out_.kept) < all) {
      earliest();
    }
    return out_;
  }

 private:
  static const std::vector<std::size_t>& ordered(std::vector<std::size_t>& places) {
    std::iota(places.begin(), places.end(), std::size_t{0});
    return places;
  }

  /// Whether these motors can be cut; if so, they and their plan are kept.
  Verdict fits(const Counts& counts) {
    const auto all = static_cast<int>(problem_.pieces());
    if (!reach_.may_take(0, demand_of(problem_, counts), kNoLimit, all, true)) {
      return Verdict::none;
    }
    if (const auto filled = filled_greedily(problem_, counts)) {
      out_.kept = counts;
      out_.fills = *filled;
      return Verdict::found;
    }
    Problem some = problem_;
    some.count = counts;
    Effort part{std::min(share_, effort_.left)};
    const std::int64_t before = part.left;
    Answer answer = pack(some, limits_, part);
    effort_.left -= before - part.left;
    if (answer.verdict == Verdict::found) {
      out_.kept = counts;
      out_.fills = std::move(answer.fills);
    }
    return answer.verdict;
  }

  /// Whether `kept` and `more` of the motors in `open` can be cut together.
  Verdict complete(Counts kept, const Counts& open, int more) {
    if (total(open) < more) {
      return Verdict::none;
    }
    if (rising_.empty() && total(open) > more) {
      return complete_any(kept, open, more, 0);
    }
    if (rising_.empty()) {
      for (std::size_t t = 0; t < kept.size(); ++t) {
        kept[t] += open[t];
      }
    }
    for (const std::size_t t : rising_) {
      const int here = std::min(more, open[t]);
      kept[t] += here;
      more -= here;
    }
    return fits(kept);
  }

  /// The same where kinds cross: every choice, kind by kind, the most of the shortest first.
  Verdict complete_any(Counts& kept, const Counts& open, int more, std::size_t done) {
    if (done == open.size()) {
      return more == 0 ? fits(kept) : Verdict::none;
    }
    const std::size_t t = open.size() - 1 - done;
    bool unknown = false;
    for (int a = std::min(more, open[t]); a >= 0; --a) {
      if (--effort_.left < 0) {
        return Verdict::unknown;
      }
      kept[t] += a;
      const Verdict verdict = complete_any(kept, open, more - a, done + 1);
      kept[t] -= a;
      if (verdict == Verdict::found) {
        return verdict;
      }
      unknown = unknown || verdict == Verdict::unknown;
    }
    return unknown ? Verdict::unknown : Verdict::none;
  }

  /// From all of them down to a number that can be cut. One that was not refuted, because the
  /// effort was used up, may still be possible.
  void most_motors(int all) {
    const Counts none(problem_.kinds(), 0);
    out_.most = -1;
    for (int number = all; number >= 0; --number) {
      const Verdict verdict = complete(none, problem_.count, number);
      if (out_.most < 0 && verdict != Verdict::none) {
        out_.most = number;
      }
      if (verdict == Verdict::found) {
        out_.proven = out_.most == number;
        return;
      }
    }
  }

  void earliest() {
    const int number = total(out_.kept);
    std::vector<std::size_t> kind_of(static_cast<std::size_t>(total(problem_.count)));
    for (std::size_t t = 0; t < problem_.kinds(); ++t) {
      for (const std::size_t m : kinds_.motors[t]) {
        kind_of[m] = t;
      }
    }
    Counts kept(problem_.kinds(), 0);
    Counts open = problem_.count;
    for (const std::size_t t : kind_of) {
      if (open[t] == 0 || total(kept) == number) {
        continue;  // its kind was refused before, or the number is reached
      }
      --open[t];
      ++kept[t];
      if (out_.kept[t] >= kept[t]) {
        continue;
      }
      const Verdict verdict = complete(kept, open, number - total(kept));
      if (verdict != Verdict::found) {
        out_.proven = out_.proven && verdict == Verdict::none;
        --kept[t];
        open[t] = 0;
      }
    }
  }

  const Kinds& kinds_;
  const Problem& problem_;
  Limits limits_;
  Effort& effort_;
  std::int64_t share_;
  std::vector<std::size_t> rising_;
  std::vector<std::size_t> places_;
  Reach reach_;
  MotorChoice out_;
};

}  // namespace

MotorChoice choose_motors(const Kinds& kinds, Effort& effort) {
  return Chooser(kinds, effort).run();
}

}  // namespace loopledger::cutting
