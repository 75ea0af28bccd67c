// SPDX-License-Identifier: MIT
//
// A lot's fit as `fit` shows it, with the lines for the shelf.
#pragma once

#include <string>

#include "motor/lot_factors.h"

namespace loopledger::terminal {

[[nodiscard]] std::string fit_text(const motor::LotFactors& lot);

}  // namespace loopledger::terminal
