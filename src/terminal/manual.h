// SPDX-License-Identifier: MIT
//
// The manual page: commands and options as the program's own help has them, within a page that
// people wrote (src/package/loopledger.1.in), so that the two can't tell different things. The
// build runs manual_main.cpp to make it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "terminal/command_line.h"

namespace loopledger::terminal {

/// A text as troff shows it, character for character.
[[nodiscard]] std::string troff_text(std::string_view text);

/// Each command as a subsection with its words, options and footer, in the macros of man(7). What
/// every command has from the program itself, which comes first, is said there alone.
[[nodiscard]] std::string manual_commands(const std::vector<CommandHelp>& commands);

/// The page with the line `@COMMANDS@` replaced. Empty when the page has no such line.
[[nodiscard]] std::string manual(std::string_view page, const std::vector<CommandHelp>& commands);

}  // namespace loopledger::terminal
