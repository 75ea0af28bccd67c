// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "base/libraries.h"

namespace loopledger::pdf {

/// Of this room: libharu and FreeType.
[[nodiscard]] std::vector<Library> libraries();

}  // namespace loopledger::pdf
