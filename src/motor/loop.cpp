// SPDX-License-Identifier: MIT
//
// What mass and loop say of each other.
#include <algorithm>
#include <cmath>

#include "calc/squared.h"
#include "calc/weigh.h"
#include "motor/now.h"

namespace loopledger::motor {

Length loop_of_mass(const records::Planned& p, Mass rubber) {
  const Length stays = rubber / p.linear_density.value;
  return std::max((stays - p.knot) / p.strands, Length{});
}

bool same_loop(const records::Planned& p, Length a, Length b) {
  const double by_ruler = 3 * p.ruler_step.in_si() * std::sqrt(2.0 / 6.0);
  const double by_hanging = kSameLoop * std::max(a, b).in_si();
  return std::fabs((a - b).in_si()) <= std::max(by_ruler, by_hanging) + 1e-12;
}

Length loop_tolerance(const records::Planned& p, Mass rubber) {
  const double n = p.strands;
  const double lambda = p.linear_density.value.in_si();
  const double of_density = rubber.in_si() / lambda * (p.linear_density.u.in_si() / lambda);
  const double of_scale = calc::scale_u(p.scale_step, p.scale_error).in_si() / lambda;
  // Both ends of a length carry the ruler's step: 2 step^2/12. Source: [gum].
  const double of_ruler = p.ruler_step.in_si() / std::sqrt(6.0);
  const double u = std::sqrt(calc::squared(of_density / n) + calc::squared(of_scale / n) +
                             calc::squared(of_ruler));
  const double of_knot = kKnotSpread * p.knot.in_si() / n;
  const double of_hanging = kSameLoop * loop_of_mass(p, rubber).in_si();
  return Length::si(3 * u + of_knot + of_hanging);
}

}  // namespace loopledger::motor
