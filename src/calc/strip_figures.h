// SPDX-License-Identifier: MIT
//
// One strip of a plan with its pieces, worked out once: linear densities and lengths.
#pragma once

#include <vector>

#include "base/quantity.h"
#include "plan/plan.h"

namespace loopledger::calc {

struct StripFigures {
  Uncertain<LinearDensity> density;
  std::vector<Uncertain<LinearDensity>> piece_density;  ///< by piece
  std::vector<Length> piece_length;                     ///< by piece
};

/// By strip of the plan.
[[nodiscard]] std::vector<StripFigures> strip_figures(const plan::Plan& plan);

}  // namespace loopledger::calc
