// SPDX-License-Identifier: MIT
#include "calc/unwinding.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>
#include <vector>

namespace loopledger::calc {
namespace {

// The first drop of the default curve [back-off]: over the last 2.5 % of the turns the torque falls
// to 0.65, and most of that in the last 0.2 %.
constexpr double kDropTurns = 0.025;
constexpr double kDropTo = 0.65;
constexpr double kSteepTurns = 0.92;          // of the drop's turns: 0.023 of 0.025
constexpr double kSteepTorque = 0.15 / 0.35;  // of the drop's torque, gained up to there

/// So near to each other two points' turns would make a kink, no shape.
constexpr double kNear = 0.01;

/// A curve needs three: below so few turns that there are less, the shape's at the halves.
TorqueCurve curve_of(std::vector<TorquePoint> points, const TorqueCurve& shape) {
  constexpr std::size_t kFewest = 3;
  while (points.size() < kFewest) {
    const TorquePoint lowest = points.front();
    const Turns half = lowest.turns / 2;
    const double share = shape.torque_at(half) / shape.torque_at(lowest.turns);
    points.insert(points.begin(), {half, lowest.torque * share});
  }
  return TorqueCurve::of_points(points);
}

/// The default curve with the motor's own points in it, up to the largest turns.
TorqueCurve whole_curve(const TorqueCurve& usual, Turns from, const std::optional<OwnCurve>& own) {
  std::vector<TorquePoint> read = own ? own->read : std::vector<TorquePoint>{};
  const auto same = [&](Turns turns) { return std::fabs(turns / from - 1) < kNear; };
  // What was read at the top of another winding is from before its first drop.
  if (own && own->unwinding && read.size() > 1 && !same(read.back().turns)) {
    read.pop_back();
  }
  if (read.empty() || read.front().torque <= Torque{}) {
    return usual;
  }
  const auto scaled = [&](const TorquePoint& p, const TorquePoint& through) {
    return TorquePoint{p.turns, p.torque * (through.torque / usual.torque_at(through.turns))};
  };
  std::vector<TorquePoint> points;
  for (const TorquePoint& p : usual.points()) {
    if (p.turns > Turns{} && p.turns < (1 - kNear) * read.front().turns) {
      points.push_back(scaled(p, read.front()));
    }
  }
  points.insert(points.end(), read.begin(), read.end());
  for (const TorquePoint& p : usual.points()) {
    if (p.turns > (1 + kNear) * read.back().turns) {
      points.push_back(scaled(p, read.back()));
    }
  }
  return curve_of(std::move(points), usual);
}

/// Its points below some turns and one between each two, so that a curve through them is the same
/// although it ends there.
std::vector<TorquePoint> points_below(const TorqueCurve& curve, Turns until) {
  std::vector<TorquePoint> points;
  Turns before;
  const auto add = [&](Turns turns) {
    const Turns between = before + (turns - before) / 2;
    if (before > Turns{}) {
      points.push_back({between, curve.torque_at(between)});
    }
    if (turns < until) {
      points.push_back({turns, curve.torque_at(turns)});
    }
    before = turns;
  };
  for (const TorquePoint& p : curve.points()) {
    if (p.turns > Turns{} && p.turns < (1 - kNear / 10) * until) {
      add(p.turns);
    }
  }
  add(until);
  return points;
}

/// How much more torque than the curve's the motor has everywhere.
double strength(const TorqueCurve& curve, const TorquePoint& top, Turns dropped) {
  const Torque there = curve.torque_at(top.turns);
  if (top.torque <= there) {
    return top.torque / there;
  }
  return std::clamp(kDropTo * (top.torque / curve.torque_at(dropped)), 1.0, top.torque / there);
}

}  // namespace

TorqueCurve unwinding_curve(const Estimate<Turns>& largest, const Estimate<Torque>& largest_torque,
                            Turns from, const std::optional<TorquePoint>& top_read,
                            const std::optional<OwnCurve>& own) {
  assert(from > Turns{} && largest.value > Turns{} && largest_torque.value > Torque{});
  const Turns most = std::max({largest.value, from, top_read ? top_read->turns : from});
  const TorqueCurve curve =
      whole_curve(TorqueCurve::by_default(most, largest_torque.value), from, own);
  const bool reads = top_read && top_read->turns > Turns{} && top_read->torque > Torque{};
  const bool joined = reads && top_read->turns == from;
  const Turns at = reads ? top_read->turns : from;
  const Turns drop = std::min(most * kDropTurns, at / 2);
  const double strong = reads ? strength(curve, *top_read, at - drop) : 1;
  const Torque top = joined ? top_read->torque : curve.torque_at(from) * strong;
  const Torque above = top - curve.torque_at(from) * strong;  // 0 but for a higher reading

  if (above <= Torque{} && from >= curve.top_turns()) {
    return curve.scaled_to(from, top);
  }
  const Turns until = above > Torque{} ? from - drop : from;
  std::vector<TorquePoint> points = points_below(curve, until);
  for (TorquePoint& p : points) {
    p.torque = p.torque * strong;
  }
  if (above > Torque{}) {
    const Turns steep = until + drop * kSteepTurns;
    points.push_back({until, curve.torque_at(until) * strong});
    points.push_back({steep, curve.torque_at(steep) * strong + above * kSteepTorque});
  }
  points.push_back({from, top});
  return curve_of(std::move(points), curve);
}

}  // namespace loopledger::calc
