// SPDX-License-Identifier: MIT
//
// A motor's own torque curve, from the turns and torques that were read of it and logged with a
// winding. Pairs stand in the order in which they were read, so falling turns were read while
// unwinding. That is what a launch is planned with; pairs read while winding serve where there is
// nothing better, and read higher.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "calc/curve.h"
#include "records/entry.h"

namespace loopledger::calc {

struct OwnCurve {
  TorqueCurve curve;
  std::string key;                ///< of the winding it was read in
  std::size_t points = 0;         ///< that were read, the top among them
  bool unwinding = false;         ///< read while unwinding
  std::vector<TorquePoint> read;  ///< those points, by rising turns, levelled where noise fell
};

/// The turns and torques of one winding in the order in which they were read, its own among them.
[[nodiscard]] std::vector<TorquePoint> points_read(const records::Entry& wound);

/// The points of one winding that make its curve: those read while unwinding when they are three or
/// more with the top, else those read while winding. The torque at the winding's own turns is a
/// point too. Empty: less than three.
[[nodiscard]] std::optional<OwnCurve> own_curve_of(const records::Entry& wound);

/// Of the newest winding that has one. @pre `life` are the entries since the motor was tied, those
/// that stand and are relied on
[[nodiscard]] std::optional<OwnCurve> own_curve(std::span<const records::Entry* const> life);

}  // namespace loopledger::calc
