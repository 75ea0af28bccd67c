// SPDX-License-Identifier: MIT
//
// The grey value between pixels.
#pragma once

#include <algorithm>
#include <cmath>

#include "photo/grey.h"

namespace loopledger::photo {

/// Bilinear between the centres of pixels; outside, the nearest pixel's. A place that is no number
/// (a plane's horizon) is outside. The picture has pixels.
[[nodiscard]] inline double sample(const Grey& p, double x, double y) {
  // In this order no comparison lets a NaN through, as std::clamp does.
  x = std::max(0.0, std::min(static_cast<double>(p.width - 1), x));
  y = std::max(0.0, std::min(static_cast<double>(p.height - 1), y));
  const int ix = std::min(static_cast<int>(x), std::max(p.width - 2, 0));
  const int iy = std::min(static_cast<int>(y), std::max(p.height - 2, 0));
  const int jx = std::min(ix + 1, p.width - 1);
  const int jy = std::min(iy + 1, p.height - 1);
  const double ax = x - ix;
  const double ay = y - iy;
  return (p.at(ix, iy) * (1 - ax) + p.at(jx, iy) * ax) * (1 - ay) +
         (p.at(ix, jy) * (1 - ax) + p.at(jx, jy) * ax) * ay;
}

}  // namespace loopledger::photo
