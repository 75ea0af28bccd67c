// SPDX-License-Identifier: MIT
//
// The bound of the search: which total fills a row of pieces can reach when each piece only keeps
// its own limits (cutting/cut_limits.h) and motors may be split between pieces. A piece is in one
// of three states: untouched; cut with a remnant too short to keep; cut with a remnant to keep.
//
// Reachable totals are intervals, by how many pieces may be touched and whether one of them must
// leave `longest`. A piece in the second state adds its whole room, and the lengths that are lost
// are taken from one pool of scrap when a total is looked up; so the pool is shared by all pieces
// and the bound is exact for a night whose spare is less than one remnant to keep. Too many
// intervals are joined, which only weakens the bound.
//
// Pieces of their own density: totals count in the lengths of the first piece; what a piece adds
// is bracketed by the smallest and the largest ratio of the kinds' lengths on both.
#pragma once

#include "cutting/cut_limits.h"

namespace loopledger::cutting {

/// What a plan must meet.
struct Target {
  Grid scrap = kNoLimit;  ///< at most
  int touched = 0;        ///< at most
  Grid longest = 0;       ///< at least one piece this long is left
};

/// Totals from `low` less the pool of scrap up to `high`.
struct Span {
  Grid low = 0;
  Grid high = 0;
};

/// Fills of one piece, both ends included.
struct FillRange {
  Grid from = 0;
  Grid to = 0;
};

/// Lengths on one piece against the same on the first.
class Ratio {
 public:
  Ratio() = default;
  Ratio(const Problem& problem, std::size_t piece);
  [[nodiscard]] Grid at_most(Grid on_piece) const;   ///< on the first piece
  [[nodiscard]] Grid at_least(Grid on_piece) const;  ///< on the first piece
  [[nodiscard]] Grid fill_from(Grid total) const;    ///< least fill for this total
  [[nodiscard]] Grid fill_to(Grid total) const;      ///< largest fill for this total
  [[nodiscard]] double smallest() const { return smallest_; }

 private:
  bool same_ = true;
  double smallest_ = 1;
  double largest_ = 1;
};

class Reach {
 public:
  /// Of the pieces in this order, from each of them to the last, for demands within `demands`.
  Reach(const Problem& problem, const Limits& limits, const std::vector<std::size_t>& order,
        const Target& target, const Span& demands);

  /// Whether pieces from the `place`th on may take `demand` (of the first piece's length) with so
  /// much scrap and so many pieces touched; `need`: one of them must leave `target.longest`.
  [[nodiscard]] bool may_take(std::size_t place, Grid demand, Grid scrap, int touched,
                              bool need) const;
  /// Fills of the `place`th piece after which the rest may take what is left.
  [[nodiscard]] std::vector<FillRange> fills(std::size_t place, Grid demand, Grid scrap,
                                             int touched, bool need) const;
  [[nodiscard]] std::size_t places() const { return order_.size(); }

 private:
  using Spans = std::vector<Span>;
  [[nodiscard]] const Spans& at(std::size_t place, int touched, bool need) const;
  [[nodiscard]] Grid pool(Grid scrap) const;
  /// How many pieces may be touched is only followed where it is a limit.
  [[nodiscard]] bool limits_touched() const {
    return target_.touched < static_cast<int>(order_.size());
  }
  [[nodiscard]] std::size_t state(int touched) const {
    return limits_touched() ? static_cast<std::size_t>(touched) : 0;
  }
  void build(std::size_t place, int touched);
  void drop_useless(std::size_t place, Spans& spans) const;
  void add_fills(std::size_t place, const Spans& rest, Grid demand, Grid scrap, Grid leave,
                 std::vector<FillRange>& out) const;

  const Problem& problem_;
  const Limits& limits_;
  const std::vector<std::size_t>& order_;
  Target target_;
  Span demands_;
  std::vector<Ratio> ratio_;  ///< by place
  std::vector<Grid> before_;  ///< by place: what the pieces before it can take at most
  double smallest_ratio_ = 1;
  std::vector<std::vector<Spans>> spans_[2];  ///< [need][place][touched]
};

/// Beyond so many pieces the fewest touched are bounded by their lengths alone, and only searches
/// without a limit on them are made: the intervals of the others would take minutes.
inline constexpr std::size_t kMostPiecesCounted = 64;

/// Aims 2 to 4 no plan can be better than; each with the ones before it. `known` holds what has
/// been shown otherwise: scrap and pieces touched at least.
[[nodiscard]] Aims bound_of(const Problem& problem, const Limits& limits, const Aims& known = {0});

/// The demand in lengths of the first piece.
[[nodiscard]] Grid demand_of(const Problem& problem, const Counts& counts);

}  // namespace loopledger::cutting
