// SPDX-License-Identifier: MIT
#include "calc/own_curve.h"

#include <algorithm>
#include <iterator>
#include <vector>

namespace loopledger::calc {

// The pairs as read, with the winding's own turns and torque put in where they belong: at the turn
// from rising to falling.
std::vector<TorquePoint> points_read(const records::Entry& wound) {
  std::vector<TorquePoint> points;
  for (const records::TurnsTorque& pair : wound.pairs) {
    points.push_back({pair.turns, pair.torque});
  }
  if (!wound.turns || !wound.torque) {
    return points;
  }
  const TorquePoint top{*wound.turns, *wound.torque};
  const auto most = std::ranges::max_element(points, {}, &TorquePoint::turns);
  if (most == points.end() || most->turns < top.turns) {
    const bool falls_from_the_first = most == points.begin() && points.size() > 1;
    points.insert(most == points.end() || falls_from_the_first ? most : std::next(most), top);
  }
  return points;
}

std::optional<OwnCurve> own_curve_of(const records::Entry& wound) {
  const std::vector<TorquePoint> points = points_read(wound);
  const auto top = std::ranges::max_element(points, {}, &TorquePoint::turns);
  const std::vector<TorquePoint> falling(top, points.end());
  if (auto curve = TorqueCurve::through(falling)) {
    return OwnCurve{std::move(*curve), wound.key, falling.size(), true, risen(falling)};
  }
  const std::vector<TorquePoint> rising(points.begin(), top == points.end() ? top : std::next(top));
  if (auto curve = TorqueCurve::through(rising)) {
    return OwnCurve{std::move(*curve), wound.key, rising.size(), false, risen(rising)};
  }
  return std::nullopt;
}

std::optional<OwnCurve> own_curve(std::span<const records::Entry* const> life) {
  for (auto e = life.rbegin(); e != life.rend(); ++e) {
    if ((*e)->kind != records::Kind::wound) {
      continue;
    }
    if (auto own = own_curve_of(**e)) {
      return own;
    }
  }
  return std::nullopt;
}

}  // namespace loopledger::calc
