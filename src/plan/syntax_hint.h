// SPDX-License-Identifier: MIT
//
// What to type where a text is no TOML: the library says what it did not expect, a tired person
// wants to know which sign is missing. Guessed from the line, and the lines before it where a
// bracket was left open.
#pragma once

#include <string>
#include <string_view>

namespace loopledger::plan {

/// The hint for a fault that the library found in this line (1-based) for this reason.
[[nodiscard]] std::string syntax_hint(std::string_view text, int line, std::string_view reason);

}  // namespace loopledger::plan
