// SPDX-License-Identifier: MIT
#include "calc/cutting_plan.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <tuple>

namespace loopledger::calc {
namespace {

using Assignment = std::vector<std::optional<std::size_t>>;

/// The aims as one value; smaller is better.
struct Score {
  std::size_t uncut = 0;
  std::vector<std::size_t> uncut_motors;  ///< later motors in the plan are given up first
  double scrap = 0;
  std::size_t touched = 0;
  double longest = 0;
};

std::vector<Length> left_over(const CuttingTask& task, const Assignment& piece_of) {
  std::vector<Length> left;
  std::vector<bool> touched(task.pieces.size(), false);
  for (const StripPiece& piece : task.pieces) {
    left.push_back(piece.length);
  }
  for (std::size_t m = 0; m < piece_of.size(); ++m) {
    if (!piece_of[m]) {
      continue;
    }
    const std::size_t p = *piece_of[m];
    if (!touched[p]) {
      touched[p] = true;
      left[p] -= task.pieces[p].ends;
    }
    left[p] -= task.cut[m][p];
  }
  return left;
}

Score score_of(const CuttingTask& task, const Assignment& piece_of) {
  Score score;
  std::vector<bool> touched(task.pieces.size(), false);
  for (std::size_t m = 0; m < piece_of.size(); ++m) {
    if (piece_of[m]) {
      touched[*piece_of[m]] = true;
    } else {
      ++score.uncut;
      score.uncut_motors.push_back(m);
    }
  }
  const std::vector<Length> left = left_over(task, piece_of);
  for (std::size_t p = 0; p < left.size(); ++p) {
    score.longest = std::max(score.longest, left[p].in_si());
    if (touched[p]) {
      ++score.touched;
      if (left[p] > kNothingLeft && left[p] < task.keep) {
        score.scrap += left[p].in_si();
      }
    }
  }
  return score;
}

bool better(const Score& a, const Score& b) {
  constexpr double kSameLength = 1e-9;  // metres: less is noise of adding up
  if (a.uncut != b.uncut) {
    return a.uncut < b.uncut;
  }
  if (a.uncut_motors != b.uncut_motors) {
    return a.uncut_motors > b.uncut_motors;
  }
  if (std::fabs(a.scrap - b.scrap) > kSameLength) {
    return a.scrap < b.scrap;
  }
  if (a.touched != b.touched) {
    return a.touched < b.touched;
  }
  return a.longest > b.longest + kSameLength;
}

/// The state of one filling: what is left of each piece.
class Filling {
 public:
  explicit Filling(const CuttingTask& task)
      : task_(task), piece_of_(task.cut.size()), touched_(task.pieces.size(), false) {
    for (const StripPiece& piece : task.pieces) {
      left_.push_back(piece.length - piece.ends);
    }
  }
  [[nodiscard]] bool fits(std::size_t motor, std::size_t piece) const {
    return task_.cut[motor][piece] <= left_[piece] + kNothingLeft;
  }
  void put(std::size_t motor, std::size_t piece) {
    piece_of_[motor] = piece;
    left_[piece] -= task_.cut[motor][piece];
    touched_[piece] = true;
  }
  [[nodiscard]] bool placed(std::size_t motor) const { return piece_of_[motor].has_value(); }
  [[nodiscard]] bool touched(std::size_t piece) const { return touched_[piece]; }
  [[nodiscard]] Length left(std::size_t piece) const { return left_[piece]; }
  [[nodiscard]] const Assignment& assignment() const { return piece_of_; }

 private:
  const CuttingTask& task_;
  Assignment piece_of_;
  std::vector<Length> left_;
  std::vector<bool> touched_;
};

std::vector<std::size_t> sorted(std::size_t count,
                                const std::function<bool(std::size_t, std::size_t)>& before) {
  std::vector<std::size_t> order(count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, before);
  return order;
}

std::vector<std::size_t> longest_first(const CuttingTask& task) {
  return sorted(task.cut.size(), [&](std::size_t a, std::size_t b) {
    return task.cut[a].front() > task.cut[b].front();
  });
}

/// Each motor into the touched piece that it fills best; a new piece, by `order`, only when none
/// holds it.
Assignment best_fit(const CuttingTask& task, const std::vector<std::size_t>& motors,
                    const std::vector<std::size_t>& order) {
  Filling filling(task);
  for (const std::size_t m : motors) {
    std::optional<std::size_t> best;
    for (const std::size_t p : order) {
      if (!filling.fits(m, p)) {
        continue;
      }
      const bool fuller = best && filling.touched(p) && filling.left(p) < filling.left(*best);
      if (!best || (filling.touched(p) && !filling.touched(*best)) || fuller) {
        best = p;
      }
    }
    if (best) {
      filling.put(m, *best);
    }
  }
  return filling.assignment();
}

/// Of the motors not yet placed, those that together fill the piece most tightly, by a
/// subset-sum table in tenths of a millimetre.
std::vector<std::size_t> tightest(const CuttingTask& task, const Filling& filling,
                                  const std::vector<std::size_t>& motors, std::size_t piece) {
  constexpr double kCell = 1e-4;
  constexpr std::size_t kMostCells = 200000;  // 20 m
  const auto room = static_cast<std::size_t>(
      std::clamp(std::floor((filling.left(piece) + kNothingLeft).in_si() / kCell), 0.0,
                 static_cast<double>(kMostCells)));
  constexpr std::size_t kNone = static_cast<std::size_t>(-1);
  std::vector<std::size_t> last(room + 1, kNone);  // motor that reached this sum last
  std::vector<std::size_t> previous(room + 1, kNone);
  std::size_t best = 0;
  for (const std::size_t m : motors) {
    if (filling.placed(m)) {
      continue;
    }
    const auto cells =
        static_cast<std::size_t>(std::ceil(task.cut[m][piece].in_si() / kCell - 1e-6));
    for (std::size_t sum = room + 1; sum-- > cells;) {
      const std::size_t from = sum - cells;
      if (last[sum] == kNone && (from == 0 || last[from] != kNone)) {
        last[sum] = m;
        previous[sum] = from;
        best = std::max(best, sum);
      }
    }
  }
  std::vector<std::size_t> chosen;
  for (std::size_t sum = best; sum > 0; sum = previous[sum]) {
    chosen.push_back(last[sum]);
  }
  return chosen;
}

Assignment fill_pieces(const CuttingTask& task, const std::vector<std::size_t>& motors,
                       const std::vector<std::size_t>& order) {
  Filling filling(task);
  for (const std::size_t p : order) {
    for (const std::size_t m : tightest(task, filling, motors, p)) {
      if (filling.fits(m, p)) {
        filling.put(m, p);
      }
    }
  }
  for (const std::size_t m : motors) {
    for (const std::size_t p : order) {
      if (!filling.placed(m) && filling.fits(m, p)) {
        filling.put(m, p);
      }
    }
  }
  return filling.assignment();
}

}  // namespace

CuttingResult make_cutting_plan(const CuttingTask& task) {
  const auto length_of = [&](std::size_t p) { return task.pieces[p].length; };
  const std::size_t count = task.pieces.size();
  const auto as_listed = sorted(count, [](std::size_t, std::size_t) { return false; });
  const auto rising =
      sorted(count, [&](std::size_t a, std::size_t b) { return length_of(a) < length_of(b); });
  const auto falling =
      sorted(count, [&](std::size_t a, std::size_t b) { return length_of(a) > length_of(b); });
  const auto long_first = longest_first(task);
  const auto plan_order = sorted(task.cut.size(), [](std::size_t, std::size_t) { return false; });

  Assignment best(task.cut.size());
  Score best_score = score_of(task, best);
  const auto offer = [&](const Assignment& candidate) {
    const Score score = score_of(task, candidate);
    if (better(score, best_score)) {
      best = candidate;
      best_score = score;
    }
  };
  for (const auto& order : {as_listed, rising, falling}) {
    offer(best_fit(task, long_first, order));
    offer(best_fit(task, plan_order, order));
    offer(fill_pieces(task, long_first, order));
  }
  CuttingResult result;
  result.piece_of = best;
  result.scrap = Length::si(best_score.scrap);
  result.gap = result.scrap;
  return result;
}

std::vector<Length> remnants(const CuttingTask& task, const CuttingResult& result) {
  return left_over(task, result.piece_of);
}

}  // namespace loopledger::calc
