// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "base/libraries.h"

namespace loopledger::plan {

/// Of this room: toml++.
[[nodiscard]] std::vector<Library> libraries();

}  // namespace loopledger::plan
