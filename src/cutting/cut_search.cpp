// SPDX-License-Identifier: MIT
#include "cutting/cut_search.h"

#include <algorithm>
#include <numeric>
#include <optional>

#include "cutting/cut_failed.h"
#include "cutting/cut_table.h"

namespace loopledger::cutting {
namespace {

std::vector<std::size_t> order_of(const Problem& problem, const Style& style) {
  std::vector<std::size_t> order(problem.pieces());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    return style.short_first ? problem.room[a] < problem.room[b]
                             : problem.room[a] > problem.room[b];
  });
  return order;
}

}  // namespace

class Walk {
 public:
  Walk(const Problem& problem, const Limits& limits, const Style& style)
      : problem_(problem),
        limits_(limits),
        style_(style),
        order_(order_of(problem, style)),
        demand_(demand_of(problem, problem.count)),
        failed_(problem.count),
        left_(problem.count),
        open_(total(problem.count)),
        tables_(order_.size()),
        random_(style.shuffle) {
    for (const std::size_t p : order_) {
      scales_.push_back(scale_of(problem, p));
    }
    alike_from_.assign(order_.size(), true);
    for (std::size_t i = order_.size(); i-- > 1;) {
      alike_from_[i - 1] = alike_from_[i] && alike(order_[i - 1], order_[i]);
    }
  }

  Answer run(const Target& target, Effort& effort) {
    target_ = target;
    reach_.emplace(problem_, limits_, order_, target, Span{demand_, demand_});
    taken_.assign(order_.size(), Counts(problem_.kinds(), 0));
    effort_ = effort;
    stopped_ = false;
    Answer answer;
    const bool found = visit(0, {target_.scrap, target_.touched, true});
    effort = effort_;
    answer.verdict = found ? Verdict::found : stopped_ ? Verdict::unknown : Verdict::none;
    if (found) {
      answer.fills.assign(order_.size(), Counts(problem_.kinds(), 0));
      for (std::size_t i = 0; i < order_.size(); ++i) {
        answer.fills[order_[i]] = taken_[i];
      }
    }
    return answer;
  }

 private:
  [[nodiscard]] bool alike(std::size_t a, std::size_t b) const {
    return problem_.room[a] == problem_.room[b] && problem_.whole[a] == problem_.whole[b] &&
           std::ranges::all_of(problem_.need, [&](const auto& row) { return row[a] == row[b]; });
  }

  [[nodiscard]] bool rest_is_left(std::size_t place, bool need) const {
    return !need ||
           std::any_of(order_.begin() + static_cast<std::ptrdiff_t>(place), order_.end(),
                       [&](std::size_t p) { return problem_.whole[p] >= target_.longest; });
  }

  bool visit(std::size_t place, const Allowance& allowance) {
    if (open_ == 0) {
      return rest_is_left(place, allowance.need);
    }
    if (place == order_.size() || stopped_) {
      return false;
    }
    stopped_ = --effort_.left < 0;
    if (!reach_->may_take(place, demand_, allowance.scrap, allowance.touched, allowance.need)) {
      return false;
    }
    const auto key = failed_.key(place, left_);
    if (key && failed_.holds(*key, allowance)) {
      return false;
    }
    const bool may_skip = !alike_from_[place];
    if ((may_skip && style_.untouched_first && skip(place, allowance)) || cut(place, allowance) ||
        (may_skip && !style_.untouched_first && skip(place, allowance))) {
      return true;
    }
    if (!stopped_ && key) {
      failed_.add(*key, allowance);
    }
    return false;
  }

  bool skip(std::size_t place, Allowance allowance) {
    allowance.need = allowance.need && problem_.whole[order_[place]] < target_.longest;
    return visit(place + 1, allowance);
  }

  bool cut(std::size_t place, const Allowance& allowance) {
    const auto allowed =
        reach_->fills(place, demand_, allowance.scrap, allowance.touched, allowance.need);
    if (allowed.empty()) {
      return false;
    }
    FillTable& table = tables_[place];
    effort_.left -= table.build(problem_, order_[place], scales_[place], left_, allowed);
    if (table.kinds().empty()) {
      return false;
    }
    if (alike_from_[place]) {
      const auto longest = std::ranges::find_if(left_, [](int count) { return count > 0; });
      if (table.kinds().front() != static_cast<std::size_t>(longest - left_.begin())) {
        return false;
      }
    }
    return table.may(0, 0) && fill(place, 0, 0, 0, allowance, allowed);
  }

  /// The `tried`th number of motors to try, of 0 to `most`.
  [[nodiscard]] int number(int tried, int most, int turn) const {
    const int from_top = (tried + turn) % (most + 1);
    return style_.fewest_first ? from_top : most - from_top;
  }

  bool fill(std::size_t place, std::size_t level, std::size_t cell, Grid length,
            const Allowance& allowance, const std::vector<FillRange>& allowed) {
    const FillTable& table = tables_[place];
    if (level == table.kinds().size()) {
      return take(place, length, allowance, allowed);
    }
    --effort_.left;
    const std::size_t kind = table.kinds()[level];
    const auto step = static_cast<std::size_t>(scales_[place].cells[kind]);
    const int most = table.most(level);
    const int turn = style_.shuffle == 0 ? 0 : static_cast<int>(next_random() % 64);
    const bool longest_needed = level == 0 && alike_from_[place];
    for (int tried = 0; tried <= most && !stopped_; ++tried) {
      const int a = number(tried, most, turn);
      const Grid longer = length + a * problem_.need[kind][order_[place]];
      const std::size_t next = cell + static_cast<std::size_t>(a) * step;
      if ((longest_needed && a == 0) || longer > problem_.room[order_[place]] ||
          !table.may(level + 1, next)) {
        continue;
      }
      taken_[place][kind] = a;
      if (fill(place, level + 1, next, longer, allowance, allowed)) {
        return true;
      }
    }
    taken_[place][kind] = 0;
    return false;
  }

  /// The filling is complete: on to the next piece.
  bool take(std::size_t place, Grid length, Allowance allowance,
            const std::vector<FillRange>& allowed) {
    if (std::ranges::none_of(allowed, [&](const FillRange& range) {
          return range.from <= length && length <= range.to;
        })) {
      return false;
    }
    const Grid remnant = problem_.room[order_[place]] - length;
    if (remnant < problem_.keep && target_.scrap < kNoLimit) {
      allowance.scrap -= remnant;
    }
    --allowance.touched;
    allowance.need = allowance.need && remnant < target_.longest;
    if (allowance.scrap < 0) {
      return false;
    }
    change(place, -1);
    const bool found = visit(place + 1, allowance);
    change(place, 1);
    return found;
  }

  void change(std::size_t place, int sign) {
    for (const std::size_t kind : tables_[place].kinds()) {
      const int a = sign * taken_[place][kind];
      left_[kind] += a;
      open_ += a;
      demand_ += a * problem_.need[kind].front();
    }
  }

  std::uint32_t next_random() {
    random_ = random_ * 1664525U + 1013904223U;
    return random_ >> 16U;
  }

  const Problem& problem_;
  const Limits& limits_;
  Style style_;
  Target target_;
  Effort effort_;
  std::vector<std::size_t> order_;
  Grid demand_;
  std::optional<Reach> reach_;
  Failed failed_;
  Counts left_;
  int open_;
  std::vector<Scale> scales_;
  std::vector<FillTable> tables_;
  std::vector<Counts> taken_;
  std::vector<bool> alike_from_;
  std::uint32_t random_;
  bool stopped_ = false;
};

Search::Search(const Problem& problem, const Limits& limits, const Style& style)
    : walk_(std::make_unique<Walk>(problem, limits, style)) {}
Search::~Search() = default;

Answer Search::run(const Target& target, Effort& effort) { return walk_->run(target, effort); }

}  // namespace loopledger::cutting
