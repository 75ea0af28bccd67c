// SPDX-License-Identifier: MIT
//
// `match --json`.
#pragma once

#include "commands/match.h"
#include "json/json.h"

namespace loopledger::json {

/// `wanted`, `choose_from`, `by[]`, `mass`, `loop`, `torque` {within, ledger, share} (null when not
/// asked for), `spread`, `proven`, `motors[]` as in `list --json` and `full_winds`, `left_out[]
/// {reason, without[], motors}`, `diagnostics[]`. No match: null and no motors.
[[nodiscard]] Json to_json(const commands::MatchAnswer& answer);

}  // namespace loopledger::json
