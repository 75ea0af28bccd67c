// SPDX-License-Identifier: MIT
//
// What `match` says of the set it found.
#pragma once

#include <string>

#include "base/quantity_text.h"
#include "commands/match.h"

namespace loopledger::terminal {

/// How alike they are in a line, the motors in a table, whether it is proven, who was left out.
/// @pre answer.match
[[nodiscard]] std::string match_text(const commands::MatchAnswer& answer, Units units);

}  // namespace loopledger::terminal
