// SPDX-License-Identifier: MIT
//
// Figure 6, energy: what a motor lets out from its largest turns, as an estimate with its interval,
// and what good rubber is known to return.
#pragma once

#include "base/quantity.h"
#include "calc/turns_torque.h"
#include "records/planned.h"

namespace loopledger::calc {

// What good rubber returned in published strip tests: 3,000 to 4,800 ft.lbf/lb. Source: [energy].
inline constexpr SpecificEnergy kGoodEnergyLow = SpecificEnergy::si(3000 * 2.98906692);
inline constexpr SpecificEnergy kGoodEnergyHigh = SpecificEnergy::si(4800 * 2.98906692);

/// Energy let out from the largest turns down to none, by the default curve, with its 95 %
/// log-normal interval. It goes with k_N k_Q A L, and A with the linear density: relative variance
/// u_kN^2 + u_kQ^2 + (u_lambda / lambda)^2. Sources: [turns], [torque], [back-off].
/// @pre loop > 0, section > 0
[[nodiscard]] Estimate<Energy> largest_energy(const Factor<double>& k_n,
                                              const Factor<Pressure>& k_q, Length loop,
                                              Area section, double relative_u_lambda);

/// The same for a motor as planned.
[[nodiscard]] Estimate<Energy> largest_energy(const records::Planned& planned);

/// Energy let out from `turns` by a motor as planned, by the default curve; an estimate.
[[nodiscard]] Energy planned_energy(const records::Planned& planned, Turns turns);

/// A specific energy as a share of what good rubber returns, from the upper figure to the lower.
struct GoodShare {
  Share of_best;
  Share of_least;
};
[[nodiscard]] GoodShare share_of_good(SpecificEnergy energy);

}  // namespace loopledger::calc
