// SPDX-License-Identifier: MIT
//
// `fit LOT`: a lot's factors from the ledger, as lines for the shelf. It changes nothing.
#pragma once

#include <optional>
#include <string>

#include "base/diagnostic.h"
#include "commands/world.h"
#include "motor/lot_factors.h"

namespace loopledger::commands {

struct FitRequest {
  std::string lot;
  std::string plan;     ///< whose strip of the lot says what is known before; empty: the defaults
  std::string records;  ///< empty: as records_folder() says
};

struct FitAnswer {
  std::optional<motor::LotFactors> lot;
  Diagnostics said;  ///< errors when there is no lot
};

/// Errors: those of load_plan; none-lot, whose hint names the nearest lot; disk-….
[[nodiscard]] FitAnswer fit(const FitRequest& request, World& world);

}  // namespace loopledger::commands
