// SPDX-License-Identifier: MIT
#include "calc/match_search.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <span>

namespace loopledger::calc {
namespace {

/// From the smallest to the largest of some values.
struct Hull {
  double low = HUGE_VAL;
  double high = -HUGE_VAL;
  [[nodiscard]] Hull with(double v) const { return {std::min(low, v), std::max(high, v)}; }
  [[nodiscard]] double length() const { return std::max(0.0, high - low); }
};

/// A better sum is better by more than this; well under what counts as equal.
constexpr double kBetterBy = 0.1;  ///< of the tie

/// Distances that may be looked at to begin with; above, not every cell's neighbours are.
constexpr std::size_t kMostNeighbours = 50'000'000;

class MatchSearch {
 public:
  MatchSearch(const std::vector<MatchCell>& cells, std::size_t wanted, double tie,
              std::int64_t effort)
      : cells_(cells), wanted_(wanted), tie_(tie), effort_(effort) {}

  MatchFound run() {
    begin_with_neighbours();
    sweep();
    const bool proven = effort_ > 0;
    // The first of the equal sets; what is left of the effort goes into it.
    limit_ = best_ + tie_;
    collecting_ = true;
    sweep();
    return {std::move(set_), proven};
  }

 private:
  using Index = std::size_t;

  struct Item {
    double z = 0;
    Index cell = 0;
  };

  [[nodiscard]] double x(Index c) const { return cells_[c].at[0]; }
  [[nodiscard]] double y(Index c) const { return cells_[c].at[1]; }
  [[nodiscard]] double z(Index c) const { return cells_[c].at[2]; }
  [[nodiscard]] Index weight(Index c) const { return cells_[c].motors.size(); }
  [[nodiscard]] bool spent_all() const { return effort_ <= 0; }

  // ---- what is found
  // ---------------------------------------------------------------------------------------------

  /// The first `wanted` motors of the cells.
  template <class Cells>
  [[nodiscard]] std::vector<std::size_t> first_of(const Cells& cells) const {
    std::vector<std::size_t> motors;
    for (const Index c : cells) {
      const auto& some = cells_[c].motors;
      const auto most = static_cast<std::ptrdiff_t>(std::min(some.size(), wanted_));
      motors.insert(motors.end(), some.begin(), some.begin() + most);
    }
    std::ranges::sort(motors);
    motors.resize(wanted_);
    return motors;
  }

  void improve(double sum, const std::vector<Index>& cells) {
    if (sum < limit_) {
      best_ = sum;
      limit_ = sum - kBetterBy * tie_;
      set_ = first_of(cells);
    }
  }

  void begin_with_neighbours() {
    const Index n = cells_.size();
    const Index stride = 1 + n * n / kMostNeighbours;
    std::vector<std::pair<double, Index>> near(n);
    for (Index i = 0; i < n; i += stride) {
      for (Index j = 0; j < n; ++j) {
        near[j] = {std::fabs(x(i) - x(j)) + std::fabs(y(i) - y(j)) + std::fabs(z(i) - z(j)), j};
      }
      const Index most = std::min(n, wanted_);
      std::ranges::partial_sort(near, near.begin() + static_cast<std::ptrdiff_t>(most));
      std::vector<Index> cells;
      Hull hx;
      Hull hy;
      Hull hz;
      for (Index k = 0, motors = 0; motors < wanted_; ++k) {
        const Index c = near[k].second;
        cells.push_back(c);
        motors += weight(c);
        hx = hx.with(x(c));
        hy = hy.with(y(c));
        hz = hz.with(z(c));
      }
      improve(hx.length() + hy.length() + hz.length(), cells);
    }
  }

  // ---- windows in x
  // ----------------------------------------------------------------------------------------------

  void sweep() {
    if (x(0) == x(cells_.size() - 1)) {
      std::vector<Index> all(cells_.size());
      std::iota(all.begin(), all.end(), Index{0});
      windows(all, 0, {}, {});
      return;
    }
    for (Index i = 0; i < cells_.size() && !spent_all(); ++i) {
      begin_at(i);
    }
  }

  [[nodiscard]] double least_with(Index a, Index b) const {
    return std::fabs(x(a) - x(b)) + std::fabs(y(a) - y(b)) + std::fabs(z(a) - z(b));
  }

  /// Sets whose first cell is `i`.
  void begin_at(Index i) {
    std::vector<Index> by_x;
    Index motors = 0;
    for (Index j = i; j < cells_.size() && x(j) - x(i) < limit_; ++j) {
      --effort_;
      if (least_with(i, j) < limit_) {
        by_x.push_back(j);
        motors += weight(j);
      }
    }
    if (motors < wanted_) {
      return;
    }
    std::vector<Index> by_y = by_x;
    std::ranges::stable_sort(by_y, {}, [this](Index c) { return y(c); });
    motors = 0;
    for (const Index h : by_x) {
      motors += weight(h);
      if (motors >= wanted_ && !spent_all()) {
        begin_and_end_at(i, h, by_y);
      }
    }
  }

  /// Sets whose first cell is `i` and whose last is `h`.
  void begin_and_end_at(Index i, Index h, const std::vector<Index>& by_y) {
    const double spent = x(h) - x(i);
    const Hull hy = Hull{}.with(y(i)).with(y(h));
    const Hull hz = Hull{}.with(z(i)).with(z(h));
    if (spent + hy.length() + hz.length() >= limit_) {
      return;
    }
    effort_ -= static_cast<std::int64_t>(by_y.size());
    between_.clear();
    Index motors = 0;
    for (const Index c : by_y) {
      if (c <= h && spent + hy.with(y(c)).length() + hz.with(z(c)).length() < limit_) {
        between_.push_back(c);
        motors += weight(c);
      }
    }
    if (motors >= wanted_ && !too_wide(spent, hy, hz)) {
      windows(between_, spent, hy, hz);
    }
  }

  /// Whether the tightest windows of N in y and in z, each by itself, already reach the limit.
  bool too_wide(double spent, const Hull& hy, const Hull& hz) {
    line_.clear();
    for (const Index c : between_) {
      line_.push_back({y(c), c});
    }
    const double dy = tightest(hy);
    if (spent + dy + hz.length() >= limit_) {
      return true;
    }
    for (Item& item : line_) {
      item.z = z(item.cell);
    }
    std::ranges::sort(line_, {}, &Item::z);
    return spent + dy + tightest(hz) >= limit_;
  }

  /// The length of the tightest window of N along `line_` that holds `needed`.
  [[nodiscard]] double tightest(const Hull& needed) const {
    double least = HUGE_VAL;
    Index right = 0;
    Index motors = 0;
    for (Index left = 0; left < line_.size() && line_[left].z <= needed.low; ++left) {
      while (right < line_.size() && motors < wanted_) {
        motors += weight(line_[right++].cell);
      }
      if (motors < wanted_) {
        break;
      }
      least = std::min(least, std::max(line_[right - 1].z, needed.high) - line_[left].z);
      motors -= weight(line_[left].cell);
    }
    return least;
  }

  // ---- windows in y, and in z
  // ------------------------------------------------------------------------------------

  /// All windows over `cells`, which rise by y and hold those needed in `hy` and `hz`.
  void windows(const std::vector<Index>& cells, double spent, const Hull& hy, const Hull& hz) {
    Index motors = 0;
    for (const Index c : cells) {
      motors += weight(c);
    }
    for (Index a = 0; a < cells.size() && y(cells[a]) <= hy.low && !spent_all(); ++a) {
      if (motors < wanted_) {
        return;
      }
      if (a == 0 || y(cells[a]) != y(cells[a - 1])) {
        windows_from(std::span(cells).subspan(a), spent, hy.with(y(cells[a])), hz);
      }
      motors -= weight(cells[a]);
    }
  }

  /// Windows that begin at the y of the first cell.
  void windows_from(std::span<const Index> cells, double spent, const Hull& hy, const Hull& hz) {
    list_.clear();
    Index motors = 0;
    for (const Index c : cells) {
      const double dy = hy.with(y(c)).length();
      if (spent + dy >= limit_ || spent_all()) {
        break;
      }
      if (spent + dy + hz.with(z(c)).length() >= limit_) {
        continue;
      }
      const auto at = std::ranges::upper_bound(list_, z(c), {}, &Item::z);
      const auto place = static_cast<Index>(at - list_.begin());
      list_.insert(at, {z(c), c});
      motors += weight(c);
      effort_ -= 1 + static_cast<std::int64_t>(list_.size() / 16);
      if (motors < wanted_ || y(c) < hy.high) {
        continue;
      }
      // A set is looked at when its last cell by y comes in: only windows that hold it matter.
      collecting_ ? collect(spent + dy, place) : tighten(spent + dy, place);
    }
  }

  /// The leftmost cell from which a window that holds `place` may begin: further left, N motors
  /// are met before it, or it is too wide.
  [[nodiscard]] Index leftmost(Index place, double room) const {
    Index motors = weight(list_[place].cell);
    Index left = place;
    while (left > 0 && motors < wanted_ && list_[place].z - list_[left - 1].z < room) {
      motors += weight(list_[--left].cell);
    }
    return left;
  }

  /// The tightest windows of N in z that hold `place`.
  void tighten(double spent, Index place) {
    Index left = leftmost(place, limit_ - spent);
    Index right = left;
    Index motors = 0;
    for (; left <= place; ++left) {
      while (right < list_.size() && motors < wanted_) {
        motors += weight(list_[right++].cell);
        --effort_;
      }
      if (motors < wanted_) {
        return;
      }
      if (spent + list_[right - 1].z - list_[left].z < limit_) {
        improve(spent + list_[right - 1].z - list_[left].z, cells_of(left, right));
      }
      motors -= weight(list_[left].cell);
    }
  }

  [[nodiscard]] std::vector<Index> cells_of(Index left, Index right) const {
    std::vector<Index> cells;
    for (Index k = left; k < right; ++k) {
      cells.push_back(list_[k].cell);
    }
    return cells;
  }

  /// The widest windows in z within the limit that hold `place`: of each, the motors that come
  /// first.
  void collect(double spent, Index place) {
    Index left = place;
    while (left > 0 && spent + list_[place].z - list_[left - 1].z < limit_) {
      --left;
    }
    Index right = left;
    Index motors = 0;
    for (; left <= place; ++left) {
      const Index was = right;
      while (right < list_.size() && spent + list_[right].z - list_[left].z < limit_) {
        motors += weight(list_[right++].cell);
        --effort_;
      }
      if (motors >= wanted_ && right > was) {
        effort_ -= static_cast<std::int64_t>(right - left);
        if (auto first = first_of(cells_of(left, right)); first < set_) {
          set_ = std::move(first);
        }
      }
      motors -= weight(list_[left].cell);
    }
  }

  const std::vector<MatchCell>& cells_;
  std::size_t wanted_;
  double tie_;
  std::int64_t effort_;
  double best_ = HUGE_VAL;
  double limit_ = HUGE_VAL;  ///< only sums under it are looked for
  bool collecting_ = false;
  std::vector<std::size_t> set_;
  std::vector<Index> between_;  ///< kept to spare its memory, as the two below
  std::vector<Item> line_;
  std::vector<Item> list_;
};

}  // namespace

MatchFound search_match(const std::vector<MatchCell>& cells, std::size_t wanted, double tie,
                        std::int64_t effort) {
  return MatchSearch(cells, wanted, tie, effort).run();
}

}  // namespace loopledger::calc
