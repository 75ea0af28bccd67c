// SPDX-License-Identifier: MIT
//
// What `match` says of the set it found: for the terminal and as JSON.
#pragma once

#include <optional>
#include <string>

#include "base/quantity_text.h"
#include "calc/match.h"
#include "json/json.h"
#include "terminal/match_choice.h"

namespace loopledger::terminal {

/// How alike they are in a line, the motors in a table, whether it is proven, who was left out.
[[nodiscard]] std::string match_text(const calc::Match& match, const MatchChoice& choice,
                                     calc::MatchBy by, Units units);

/// `wanted`, `choose_from`, `by[]`, `mass`, `loop`, `torque` {within, ledger, share} (null when not
/// asked for), `spread`, `proven`, `motors[]` as in `list --json` and `full_winds`, `left_out[]
/// {reason, without[], motors}`, `diagnostics[]`. No match: null and no motors.
[[nodiscard]] json::Json match_json(const std::optional<calc::Match>& match,
                                    const MatchChoice& choice, calc::MatchBy by, int wanted,
                                    const Diagnostics& problems);

}  // namespace loopledger::terminal
