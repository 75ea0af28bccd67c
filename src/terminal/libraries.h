// SPDX-License-Identifier: MIT
//
// What `--version` prints: the program's version, those of the libraries behind all rooms, and the
// folders in which it looks for templates, for whoever has to find out why two machines differ.
#pragma once

#include <string>

#include "terminal/command.h"

namespace loopledger::terminal {

/// Without the last line's end.
[[nodiscard]] std::string version_text(const Context& context);

}  // namespace loopledger::terminal
