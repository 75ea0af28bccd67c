// SPDX-License-Identifier: MIT
#include "cutting/cut_reach.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

namespace loopledger::cutting {
namespace {

/// Relative noise of a product of doubles, generously: bounds are moved out by it.
constexpr double kNoise = 1e-12;

std::size_t most_spans(std::size_t pieces) { return pieces <= 16 ? 192 : 24; }

/// Sorted, joined where they touch; beyond `most`, joined over the narrowest gaps.
void tidy(std::vector<Span>& spans, std::size_t most) {
  std::ranges::sort(spans, [](const Span& a, const Span& b) {
    return a.low != b.low ? a.low < b.low : a.high > b.high;
  });
  std::vector<Span> joined;
  for (const Span& span : spans) {
    if (!joined.empty() && span.high <= joined.back().high) {
      continue;
    }
    if (!joined.empty() && span.low <= joined.back().high + 1) {
      joined.back().high = span.high;
    } else {
      joined.push_back(span);
    }
  }
  if (joined.size() > most) {
    std::vector<Grid> gaps;
    for (std::size_t i = 1; i < joined.size(); ++i) {
      gaps.push_back(joined[i].low - joined[i - 1].high);
    }
    const auto cut = gaps.begin() + static_cast<std::ptrdiff_t>(gaps.size() - (most - 1));
    std::ranges::nth_element(gaps, cut);
    const Grid wide = *cut;
    std::vector<Span> fewer{joined.front()};
    for (std::size_t i = 1; i < joined.size(); ++i) {
      if (joined[i].low - joined[i - 1].high > wide) {
        fewer.push_back(joined[i]);
      } else {
        fewer.back().high = std::max(fewer.back().high, joined[i].high);
      }
    }
    joined = std::move(fewer);
  }
  spans = std::move(joined);
}

void shifted(const std::vector<Span>& from, Grid low, Grid high, std::vector<Span>& to) {
  for (const Span& span : from) {
    to.push_back({span.low + low, span.high + high});
  }
}

}  // namespace

Ratio::Ratio(const Problem& problem, std::size_t piece) {
  same_ = problem.alike || piece == 0;
  if (same_) {
    return;
  }
  smallest_ = 1e300;
  largest_ = 0;
  for (std::size_t t = 0; t < problem.kinds(); ++t) {
    const double ratio =
        static_cast<double>(problem.need[t][piece]) / static_cast<double>(problem.need[t].front());
    smallest_ = std::min(smallest_, ratio * (1 - kNoise));
    largest_ = std::max(largest_, ratio * (1 + kNoise));
  }
}

Grid Ratio::at_most(Grid on_piece) const {
  return same_ ? on_piece
               : static_cast<Grid>(std::floor(static_cast<double>(on_piece) / smallest_)) + 1;
}
Grid Ratio::at_least(Grid on_piece) const {
  return same_ ? on_piece
               : static_cast<Grid>(std::ceil(static_cast<double>(on_piece) / largest_)) - 1;
}
Grid Ratio::fill_from(Grid total) const {
  return same_ ? total : static_cast<Grid>(std::floor(static_cast<double>(total) * smallest_)) - 2;
}
Grid Ratio::fill_to(Grid total) const {
  return same_ ? total : static_cast<Grid>(std::ceil(static_cast<double>(total) * largest_)) + 2;
}

Reach::Reach(const Problem& problem, const Limits& limits, const std::vector<std::size_t>& order,
             const Target& target, const Span& demands)
    : problem_(problem), limits_(limits), order_(order), target_(target), demands_(demands) {
  Grid before = 0;
  for (const std::size_t p : order_) {
    ratio_.emplace_back(problem, p);
    smallest_ratio_ = std::min(smallest_ratio_, ratio_.back().smallest());
    before_.push_back(before);
    before += limits_.fullest[p] > 0 ? ratio_.back().at_most(limits_.fullest[p]) : 0;
  }
  const std::size_t states = limits_touched() ? static_cast<std::size_t>(target_.touched) + 1 : 1;
  for (auto& spans : spans_) {
    spans.assign(order_.size() + 1, std::vector<Spans>(states));
  }
  for (Spans& nothing : spans_[0].back()) {
    nothing.push_back({0, 0});
  }
  for (std::size_t place = order_.size(); place-- > 0;) {
    for (std::size_t touched = 0; touched < states; ++touched) {
      build(place, limits_touched() ? static_cast<int>(touched) : target_.touched);
    }
  }
}

const Reach::Spans& Reach::at(std::size_t place, int touched, bool need) const {
  return spans_[need ? 1 : 0][place][state(touched)];
}

Grid Reach::pool(Grid scrap) const {
  if (problem_.alike || scrap >= kNoLimit) {
    return scrap;
  }
  return static_cast<Grid>(std::ceil(static_cast<double>(scrap) / smallest_ratio_)) + 1;
}

/// Totals that no demand leaves to these pieces.
void Reach::drop_useless(std::size_t place, Spans& spans) const {
  const Grid lost = pool(target_.scrap);
  std::erase_if(spans, [&](const Span& span) {
    return span.low - lost > demands_.high || span.high < demands_.low - before_[place];
  });
}

void Reach::build(std::size_t place, int touched) {
  const std::size_t p = order_[place];
  const Ratio& ratio = ratio_[place];
  const Grid room = problem_.room[p];
  Spans any = at(place + 1, touched, false);
  Spans needed = at(place + 1, touched, true);
  if (problem_.whole[p] >= target_.longest) {
    needed.insert(needed.end(), any.begin(), any.end());
  }
  if (touched > 0 && limits_.fullest[p] > 0) {
    const Spans& rest = at(place + 1, touched - 1, false);
    const Spans& rest_needed = at(place + 1, touched - 1, true);
    const Grid least_scrap = room - limits_.fullest[p];
    if (problem_.keep > 0 && least_scrap <= target_.scrap && least_scrap < problem_.keep) {
      const Grid low = ratio.at_least(room);
      const Grid high = ratio.at_most(limits_.fullest[p]);
      shifted(rest, low, high, any);
      shifted(rest_needed, low, high, needed);
      const Grid most = std::min(limits_.fullest[p], room - target_.longest);
      if (target_.longest < problem_.keep && most >= limits_.least[p]) {
        shifted(rest, low, ratio.at_most(most), needed);
      }
    }
    if (limits_.kept[p] > 0) {
      const Grid low = ratio.at_least(limits_.least[p]);
      shifted(rest, low, ratio.at_most(limits_.kept[p]), any);
      shifted(rest_needed, low, ratio.at_most(limits_.kept[p]), needed);
      const Grid most = std::min(limits_.kept[p], room - target_.longest);
      if (most >= limits_.least[p]) {
        shifted(rest, low, ratio.at_most(most), needed);
      }
    }
  }
  drop_useless(place, any);
  drop_useless(place, needed);
  tidy(any, most_spans(order_.size()));
  tidy(needed, most_spans(order_.size()));
  spans_[0][place][state(touched)] = std::move(any);
  spans_[1][place][state(touched)] = std::move(needed);
}

bool Reach::may_take(std::size_t place, Grid demand, Grid scrap, int touched, bool need) const {
  const Grid lost = pool(scrap);
  return touched >= 0 && std::ranges::any_of(at(place, touched, need), [&](const Span& span) {
           return span.low - lost <= demand && demand <= span.high;
         });
}

/// Fills that leave at least `leave` and a total from which the rest is reached by `rest`.
void Reach::add_fills(std::size_t place, const Spans& rest, Grid demand, Grid scrap, Grid leave,
                      std::vector<FillRange>& out) const {
  const std::size_t p = order_[place];
  const Ratio& ratio = ratio_[place];
  const Grid room = problem_.room[p];
  const Grid lost = pool(scrap);
  const Grid full = std::min(room - leave, limits_.fullest[p]);
  for (const Span& span : rest) {
    const Grid from = std::max(limits_.least[p], ratio.fill_from(demand - span.high));
    if (problem_.keep > 0 && span.low + ratio.at_least(room) - lost <= demand) {
      const Grid most_lost = std::min(scrap, problem_.keep - 1);
      out.push_back({std::max(from, room - most_lost), full});
    }
    const Grid to = std::min({limits_.kept[p], full, ratio.fill_to(demand - span.low + lost)});
    out.push_back({from, to});
  }
}

std::vector<FillRange> Reach::fills(std::size_t place, Grid demand, Grid scrap, int touched,
                                    bool need) const {
  std::vector<FillRange> out;
  if (touched > 0 && limits_.fullest[order_[place]] > 0) {
    add_fills(place, at(place + 1, touched - 1, need), demand, scrap, 0, out);
    if (need) {
      add_fills(place, at(place + 1, touched - 1, false), demand, scrap, target_.longest, out);
    }
    std::erase_if(out, [](const FillRange& range) { return range.from > range.to; });
  }
  return out;
}

Grid demand_of(const Problem& problem, const Counts& counts) {
  return problem.pieces() == 0 ? 0 : fill_length(problem, counts, 0);
}

namespace {

/// The smallest value from `low` to `high` that passes, by halving; `high` if none below does.
Grid smallest_that(Grid low, Grid high, const std::function<bool(Grid)>& passes) {
  while (low < high) {
    const Grid middle = low + (high - low) / 2;
    if (passes(middle)) {
      high = middle;
    } else {
      low = middle + 1;
    }
  }
  return low;
}

/// Pieces touched at least, were each filled to its limit, those that hold most first.
int fewest_by_length(const Problem& problem, const Limits& limits, Grid demand) {
  std::vector<Grid> takes;
  for (std::size_t p = 0; p < problem.pieces(); ++p) {
    takes.push_back(Ratio(problem, p).at_most(limits.fullest[p]));
  }
  std::ranges::sort(takes, std::greater<>{});
  int touched = 0;
  for (const Grid most : takes) {
    if (demand <= 0) {
      break;
    }
    demand -= most;
    ++touched;
  }
  return touched;
}

}  // namespace

Aims bound_of(const Problem& problem, const Limits& limits, const Aims& known) {
  std::vector<std::size_t> order(problem.pieces());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const Grid demand = demand_of(problem, problem.count);
  const auto passes = [&](const Target& target) {
    const Reach reach(problem, limits, order, target, {demand, demand});
    return reach.may_take(0, demand, target.scrap, target.touched, true);
  };
  const int all = static_cast<int>(problem.pieces());
  Aims bound;
  const Grid most = problem.keep * all;
  bound.scrap = smallest_that(known.scrap, std::max(most, known.scrap), [&](Grid scrap) {
    return passes({scrap, all, 0});
  });
  if (problem.pieces() > kMostPiecesCounted) {
    bound.touched = std::max(known.touched, fewest_by_length(problem, limits, demand));
    bound.longest = std::ranges::max(problem.whole);
    return bound;
  }
  bound.touched = static_cast<int>(
      smallest_that(known.touched, std::max(all, known.touched), [&](Grid touched) {
        return passes({bound.scrap, static_cast<int>(touched), 0});
      }));
  const Grid longest = problem.whole.empty() ? 0 : std::ranges::max(problem.whole);
  // Counted from the longest downwards, so that the smallest that passes is the longest left.
  const Grid less = smallest_that(0, longest, [&](Grid off) {
    return passes({bound.scrap, bound.touched, longest - off});
  });
  bound.longest = longest - less;
  return bound;
}

}  // namespace loopledger::cutting
