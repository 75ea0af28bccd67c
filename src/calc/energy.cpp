// SPDX-License-Identifier: MIT
#include "calc/energy.h"

#include <cmath>

#include "calc/curve.h"
#include "calc/squared.h"

namespace loopledger::calc {

Estimate<Energy> largest_energy(const Factor<double>& k_n, const Factor<Pressure>& k_q, Length loop,
                                Area section, double relative_u_lambda) {
  const Turns turns = largest_turns(k_n, loop, section, relative_u_lambda).value;
  const Torque torque = largest_torque(k_q, section, relative_u_lambda).value;
  const double u =
      std::sqrt(squared(k_n.relative_u) + squared(k_q.relative_u) + squared(relative_u_lambda));
  return log_normal(TorqueCurve::by_default(turns, torque).energy_below(turns), u);
}

Estimate<Energy> largest_energy(const records::Planned& p) {
  return largest_energy({p.turns_factor, p.turns_factor_u}, {p.torque_factor, p.torque_factor_u},
                        p.loop, p.section, p.linear_density.u / p.linear_density.value);
}

Energy planned_energy(const records::Planned& p, Turns turns) {
  return TorqueCurve::by_default(p.turns_max.value, p.torque_max.value).energy_below(turns);
}

GoodShare share_of_good(SpecificEnergy energy) {
  return {Share::ratio(energy / kGoodEnergyHigh), Share::ratio(energy / kGoodEnergyLow)};
}

}  // namespace loopledger::calc
