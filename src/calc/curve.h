// SPDX-License-Identifier: MIT
//
// Figure 6: torque while a motor unwinds, as shares of its largest turns and torque, and the energy
// under it.
#pragma once

#include <vector>

#include "base/quantity.h"
#include "calc/figures.h"

namespace loopledger::calc {

/// The default curve: a monotone cubic through points that follow published back-off losses and
/// torque pairs. Source: [back-off].
class DefaultCurve {
 public:
  /// Share of the largest torque left at a share of the largest turns. @pre 0 <= turns <= 1
  [[nodiscard]] static Share torque_at(Share turns);
  /// The inverse: the share of the turns at which this share of the torque is left, 0 to 1.
  [[nodiscard]] static Share turns_at(Share torque);
  /// Mean torque from 0 to `turns`, as a share of the largest torque times `turns`: the area
  /// under the curve. area(1) is 0.204.
  [[nodiscard]] static double area(Share turns);
  /// Its points, for drawing and for `check --json`.
  [[nodiscard]] static const std::vector<CurvePoint>& points();
};

/// Turns to let out of a motor wound to `wound`, where its torque read `top`, so that `launch` is
/// left; 0 when that is no less than `top`. An estimate by the default curve. Source: [back-off].
/// @pre top > 0
[[nodiscard]] Turns back_off(Turns wound, Torque top, Torque launch);

/// Energy that rubber returns less for each degree of cooling. Source: [temperature], two lots,
/// 15 to 28 degC.
inline constexpr double kEnergyPerDegree = 0.008;

/// How much more (less: negative) of its energy a motor returns at `to` than at `from`. Linear; an
/// estimate that holds for some twenty degrees.
[[nodiscard]] Share energy_change(Temperature from, Temperature to);

/// Energy stored between 0 and `share` of the largest turns: the integral of 2 pi Q dN.
[[nodiscard]] Energy stored_energy(Torque largest, Turns turns_max, Share share);

}  // namespace loopledger::calc
