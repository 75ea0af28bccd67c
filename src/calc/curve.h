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
  /// Mean torque from 0 to `turns`, as a share of the largest torque times `turns`: the area
  /// under the curve. area(1) is 0.204.
  [[nodiscard]] static double area(Share turns);
  /// Its points, for drawing and for `check --json`.
  [[nodiscard]] static const std::vector<CurvePoint>& points();
};

/// Energy stored between 0 and `share` of the largest turns: the integral of 2 pi Q dN.
[[nodiscard]] Energy stored_energy(Torque largest, Turns turns_max, Share share);

}  // namespace loopledger::calc
