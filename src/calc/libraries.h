// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "base/libraries.h"

namespace loopledger::calc {

/// Of this room: Boost.
[[nodiscard]] std::vector<Library> libraries();

}  // namespace loopledger::calc
