// SPDX-License-Identifier: MIT
//
// Figure 6: the torque of a motor while it unwinds, what is to be let out of it for a wanted
// torque, and the energy under the curve. The default shape follows published figures;
// calc/own_curve.h makes a motor's own from what was read of it.
#pragma once

#include <optional>
#include <vector>

#include "base/quantity.h"
#include "calc/figures.h"
#include "calc/monotone_cubic.h"

namespace loopledger::calc {

/// The default curve's points in shares of the turns and the torque at its top: a monotone cubic
/// through them follows published back-off losses and torque pairs. Source: [back-off].
[[nodiscard]] const std::vector<CurvePoint>& default_curve_points();

/// One torque read at a number of turns.
struct TorquePoint {
  Turns turns;
  Torque torque;
};

/// Points by rising turns, usable for a curve: those that can't be are left out, points at the same
/// turns are averaged; where a torque falls with rising turns, which only noise can do, the
/// neighbours share their mean.
[[nodiscard]] std::vector<TorquePoint> risen(std::vector<TorquePoint> points);

/// Torque from no turns up to a top. Outside that, the nearest end's.
class TorqueCurve {
 public:
  /// The default shape up to this top. @pre turns > 0, torque >= 0
  [[nodiscard]] static TorqueCurve by_default(Turns turns, Torque torque);
  /// Through what was read, in any order, as risen() makes it. Below the lowest point it follows
  /// the default shape, drawn through that point. Empty: less than three different turns above 0,
  /// or no torque at the top.
  [[nodiscard]] static std::optional<TorqueCurve> through(std::vector<TorquePoint> points);

  [[nodiscard]] Turns top_turns() const;
  [[nodiscard]] Torque top_torque() const;
  [[nodiscard]] Torque torque_at(Turns turns) const;
  /// The turns left in at which this torque is left; where that is a range, the most of them.
  [[nodiscard]] Turns turns_at(Torque torque) const;
  /// Energy let out from these turns down to none: the integral of 2 pi Q dN.
  [[nodiscard]] Energy energy_below(Turns turns) const;
  /// The same shape up to another top. @pre turns > 0, torque >= 0
  [[nodiscard]] TorqueCurve scaled_to(Turns turns, Torque torque) const;
  /// Through these points and no torque at no turns. @pre at least three, turns > 0 rising, torque
  /// not falling
  [[nodiscard]] static TorqueCurve of_points(const std::vector<TorquePoint>& points);
  /// Its points, for drawing.
  [[nodiscard]] std::vector<TorquePoint> points() const;

 private:
  explicit TorqueCurve(MonotoneCubic cubic) : cubic_(std::move(cubic)) {}
  MonotoneCubic cubic_;  ///< turns -> N m
};

/// Turns to let out from the top so that `launch` is left; 0 when that is no less than the top's.
[[nodiscard]] Turns back_off(const TorqueCurve& curve, Torque launch);

/// What is left when turns are let out from the top.
struct BackedOff {
  Turns turns;    ///< left in
  Torque torque;  ///< left
  Share lost;     ///< of the energy at the top
};
/// The reverse of back_off(); `out` beyond the top leaves nothing.
[[nodiscard]] BackedOff let_out(const TorqueCurve& curve, Turns out);

/// Energy that rubber returns less for each degree of cooling. Source: [temperature], two lots,
/// 15 to 28 degC.
inline constexpr double kEnergyPerDegree = 0.008;

/// How much more (less: negative) of its energy a motor returns at `to` than at `from`. Linear; an
/// estimate that holds for some twenty degrees.
[[nodiscard]] Share energy_change(Temperature from, Temperature to);

/// Further apart than this, energy_change() is a guess, and so is what the rubber stands: the two
/// lots were measured over 13 degrees [temperature]. Common sense, no source.
inline constexpr double kFarDegrees = 20;
[[nodiscard]] bool far_apart(Temperature from, Temperature to);

}  // namespace loopledger::calc
