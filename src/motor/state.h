// SPDX-License-Identifier: MIT
//
// Where a motor is in its life, as a word.
#pragma once

#include <optional>
#include <string_view>

namespace loopledger::motor {

/// A motor that broke, or was retired, is `retired` until it has a new knot.
enum class State { planned, tied, broken_in, flown, retired };

/// "planned", "tied", "broken_in", "flown", "retired"
[[nodiscard]] std::string_view word(State state);
[[nodiscard]] std::optional<State> state_from(std::string_view text);

}  // namespace loopledger::motor
