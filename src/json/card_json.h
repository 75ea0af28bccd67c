// SPDX-License-Identifier: MIT
//
// `card --json`: what stands on the cards, null where a card has none.
#pragma once

#include "commands/card.h"
#include "json/json.h"

namespace loopledger::json {

[[nodiscard]] Json to_json(const commands::CardAnswer& answer);

}  // namespace loopledger::json
