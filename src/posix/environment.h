// SPDX-License-Identifier: MIT
//
// Where variables of the environment come from: the system's, or a test's.
#pragma once

#include <functional>
#include <optional>
#include <string>

namespace loopledger::posix {

/// A variable's value; empty: it is not set.
using Environment = std::function<std::optional<std::string>(const char*)>;

}  // namespace loopledger::posix
