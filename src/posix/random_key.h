// SPDX-License-Identifier: MIT
//
// The one source of chance in the program: the four characters of an entry's key.
#pragma once

#include <string>

namespace loopledger::posix {

/// Four of a-z and 0-9, from the operating system's random source.
[[nodiscard]] std::string random_four();

}  // namespace loopledger::posix
