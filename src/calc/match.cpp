// SPDX-License-Identifier: MIT
#include "calc/match.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "calc/match_search.h"
#include "calc/squared.h"

namespace loopledger::calc {
namespace {

/// Values of one figure, and what they are held against.
struct MatchColumn {
  std::vector<double> values;  ///< by motor, SI
  double deviation = 0;        ///< 0: the same in all

  double smallest_step = 0;  ///< less is the same value, typed in two units

  [[nodiscard]] double range(const std::vector<std::size_t>& motors) const {
    double low = HUGE_VAL;
    double high = -HUGE_VAL;
    for (const std::size_t m : motors) {
      low = std::min(low, values[m]);
      high = std::max(high, values[m]);
    }
    return high - low > smallest_step ? high - low : 0;
  }
};

/// Values that differ by less than this share of the largest are the same value, typed in two
/// units.
constexpr double kSameValue = 1e-12;
/// The same after dividing by the deviation; well under kMatchTie.
constexpr double kSamePlace = 1e-10;

MatchColumn column_of(std::vector<double> values) {
  const auto n = static_cast<double>(values.size());
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
  double squares = 0;
  double largest = 0;
  for (const double v : values) {
    squares += squared(v - mean);
    largest = std::max(largest, std::fabs(v));
  }
  const auto [low, high] = std::ranges::minmax(values);
  const double step = kSameValue * largest;
  const bool same = high - low <= step;
  return {std::move(values), same ? 0 : std::sqrt(squares / (n - 1)), step};
}

template <class Q>
MatchColumn column_of(std::span<const MatchFigures> motors, Q MatchFigures::*figure) {
  std::vector<double> values;
  for (const MatchFigures& m : motors) {
    values.push_back((m.*figure).in_si());
  }
  return column_of(std::move(values));
}

/// In units of the deviation from the least on; what is the same value becomes the same number.
std::vector<double> placed(const MatchColumn& column) {
  const double least = std::ranges::min(column.values);
  std::vector<std::pair<double, std::size_t>> order;
  for (std::size_t m = 0; m < column.values.size(); ++m) {
    order.emplace_back((column.values[m] - least) / column.deviation, m);
  }
  std::ranges::sort(order);
  std::vector<double> places(order.size());
  double last = 0;
  for (const auto& [at, m] : order) {
    last = at - last < kSamePlace ? last : at;
    places[m] = last;
  }
  return places;
}

/// The motors by place; figures that count nothing are left out.
std::vector<MatchCell> cells_of(const std::vector<const MatchColumn*>& columns, std::size_t n) {
  std::vector<std::pair<std::array<double, 3>, std::size_t>> motors(n);
  for (std::size_t m = 0; m < n; ++m) {
    motors[m].second = m;
  }
  std::size_t axis = 3;
  for (const MatchColumn* const column : columns) {
    if (column->deviation > 0) {
      --axis;
      const std::vector<double> places = placed(*column);
      for (std::size_t m = 0; m < n; ++m) {
        motors[m].first[axis] = places[m];
      }
    }
  }
  std::ranges::sort(motors);
  std::vector<MatchCell> cells;
  for (const auto& [at, m] : motors) {
    if (cells.empty() || cells.back().at != at) {
      cells.push_back({at, {}});
    }
    cells.back().motors.push_back(m);
  }
  return cells;
}

}  // namespace

std::optional<Match> most_alike(std::span<const MatchFigures> motors, MatchBy by,
                                std::size_t wanted, std::int64_t effort) {
  if (wanted == 0 || wanted > motors.size() || !(by.mass || by.loop || by.torque)) {
    return std::nullopt;
  }
  Match match;
  const auto none = MatchColumn{std::vector<double>(motors.size())};
  const auto mass = by.mass ? column_of(motors, &MatchFigures::mass) : none;
  const auto loop = by.loop ? column_of(motors, &MatchFigures::loop) : none;
  const auto torque = by.torque ? column_of(motors, &MatchFigures::torque) : none;
  MatchFound found =
      search_match(cells_of({&mass, &loop, &torque}, motors.size()), wanted, kMatchTie, effort);
  match.motors = std::move(found.motors);
  match.proven = found.proven;
  const auto share = [&match](const MatchColumn& column) {
    return column.deviation > 0 ? column.range(match.motors) / column.deviation : 0;
  };
  match.within = {Mass::si(mass.range(match.motors)), Length::si(loop.range(match.motors)),
                  Torque::si(torque.range(match.motors))};
  match.ledger = {Mass::si(mass.deviation), Length::si(loop.deviation),
                  Torque::si(torque.deviation)};
  match.shares = {share(mass), share(loop), share(torque)};
  match.spread = match.shares.mass + match.shares.loop + match.shares.torque;
  return match;
}

}  // namespace loopledger::calc
