// SPDX-License-Identifier: MIT
#include "calc/curve.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace loopledger::calc {
namespace {

constexpr std::array kTurnsShare{0.0,  0.05, 0.20, 0.50,  0.70,  0.80,
                                 0.85, 0.90, 0.95, 0.975, 0.998, 1.0};
constexpr std::array kTorqueShare{0.0,   0.080, 0.115, 0.145, 0.185, 0.250,
                                  0.340, 0.460, 0.585, 0.650, 0.800, 1.0};

/// Points at the same turns become one; a torque that falls is levelled with those before it (the
/// nearest rising sequence in the least-squares sense, by pooling neighbours).
struct Pool {
  double turns = 0;  ///< of its first point
  double torque = 0;
  double weight = 0;
  std::vector<double> members;  ///< turns of all its points
};

MonotoneCubic cubic_through(const std::vector<TorquePoint>& points) {
  std::vector<double> x;
  std::vector<double> y;
  for (const TorquePoint& p : points) {
    x.push_back(p.turns.count());
    y.push_back(p.torque.in_si());
  }
  return {std::move(x), std::move(y)};
}

}  // namespace

std::vector<TorquePoint> risen(std::vector<TorquePoint> points) {
  std::erase_if(points, [](const TorquePoint& p) {
    return p.turns <= Turns{} || p.torque < Torque{} || !p.turns.finite() || !p.torque.finite();
  });
  std::ranges::sort(points, {}, [](const TorquePoint& p) { return p.turns; });
  std::vector<Pool> pools;
  for (const TorquePoint& p : points) {
    const double turns = p.turns.count();
    if (!pools.empty() && pools.back().members.back() == turns) {
      Pool& same = pools.back();
      same.torque = (same.torque * same.weight + p.torque.in_si()) / (same.weight + 1);
      same.weight += 1;
    } else {
      pools.push_back({turns, p.torque.in_si(), 1, {turns}});
    }
    while (pools.size() > 1 && pools[pools.size() - 2].torque > pools.back().torque) {
      const Pool above = std::move(pools.back());
      pools.pop_back();
      Pool& below = pools.back();
      const double weight = below.weight + above.weight;
      below.torque = (below.torque * below.weight + above.torque * above.weight) / weight;
      below.weight = weight;
      below.members.insert(below.members.end(), above.members.begin(), above.members.end());
    }
  }
  std::vector<TorquePoint> out;
  for (const Pool& pool : pools) {
    for (const double turns : pool.members) {
      out.push_back({Turns::of(turns), Torque::si(pool.torque)});
    }
  }
  return out;
}

const std::vector<CurvePoint>& default_curve_points() {
  static const std::vector<CurvePoint> kPoints = [] {
    std::vector<CurvePoint> points;
    for (std::size_t i = 0; i < kTurnsShare.size(); ++i) {
      points.push_back({Share::ratio(kTurnsShare[i]), Share::ratio(kTorqueShare[i])});
    }
    return points;
  }();
  return kPoints;
}

TorqueCurve TorqueCurve::by_default(Turns turns, Torque torque) {
  assert(turns > Turns{} && torque >= Torque{});
  std::vector<TorquePoint> points;
  for (const CurvePoint& p : default_curve_points()) {
    points.push_back({turns * p.turns.as_ratio(), torque * p.torque.as_ratio()});
  }
  return TorqueCurve(cubic_through(points));
}

std::optional<TorqueCurve> TorqueCurve::through(std::vector<TorquePoint> points) {
  constexpr std::size_t kFewest = 3;
  const std::vector<TorquePoint> read = risen(std::move(points));
  if (read.size() < kFewest || read.back().torque <= Torque{}) {
    return std::nullopt;
  }
  const TorquePoint& lowest = read.front();
  const TorqueCurve shape = by_default(read.back().turns, Torque::si(1));
  const double there = shape.torque_at(lowest.turns).in_si();
  std::vector<TorquePoint> all;
  for (const TorquePoint& p : shape.points()) {
    constexpr double kApart = 0.99;  // a point of the shape this near below adds a kink, no shape
    if (p.turns < kApart * lowest.turns) {
      all.push_back({p.turns, lowest.torque * (p.torque.in_si() / there)});
    }
  }
  all.insert(all.end(), read.begin(), read.end());
  return TorqueCurve(cubic_through(all));
}

Turns TorqueCurve::top_turns() const { return Turns::of(cubic_.x().back()); }
Torque TorqueCurve::top_torque() const { return Torque::si(cubic_.y().back()); }

Torque TorqueCurve::torque_at(Turns turns) const { return Torque::si(cubic_.at(turns.count())); }

Turns TorqueCurve::turns_at(Torque torque) const {
  return Turns::of(cubic_.inverse(torque.in_si()));
}

Energy TorqueCurve::energy_below(Turns turns) const {
  return work(Torque::si(1), Turns::of(cubic_.area(turns.count())));
}

TorqueCurve TorqueCurve::scaled_to(Turns turns, Torque torque) const {
  const double longer = turns / top_turns();
  const double stronger = torque / top_torque();
  std::vector<TorquePoint> scaled = points();
  for (TorquePoint& p : scaled) {
    p = {p.turns * longer, p.torque * stronger};
  }
  return TorqueCurve(cubic_through(scaled));
}

TorqueCurve TorqueCurve::of_points(const std::vector<TorquePoint>& points) {
  std::vector<TorquePoint> all{{Turns{}, Torque{}}};
  all.insert(all.end(), points.begin(), points.end());
  return TorqueCurve(cubic_through(all));
}

std::vector<TorquePoint> TorqueCurve::points() const {
  std::vector<TorquePoint> out;
  for (std::size_t i = 0; i < cubic_.x().size(); ++i) {
    out.push_back({Turns::of(cubic_.x()[i]), Torque::si(cubic_.y()[i])});
  }
  return out;
}

Turns back_off(const TorqueCurve& curve, Torque launch) {
  return curve.top_turns() - curve.turns_at(launch);
}

BackedOff let_out(const TorqueCurve& curve, Turns out) {
  const Turns left = std::max(curve.top_turns() - out, Turns{});
  const Energy whole = curve.energy_below(curve.top_turns());
  return {left, curve.torque_at(left),
          Share::ratio(whole > Energy{} ? 1 - curve.energy_below(left) / whole : 0)};
}

bool far_apart(Temperature from, Temperature to) {
  return std::fabs(to.in_deg_c() - from.in_deg_c()) > kFarDegrees;
}

Share energy_change(Temperature from, Temperature to) {
  return Share::ratio(kEnergyPerDegree * (to.in_deg_c() - from.in_deg_c()));
}

}  // namespace loopledger::calc
