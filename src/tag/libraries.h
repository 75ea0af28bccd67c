// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "base/libraries.h"

namespace loopledger::tag {

/// Of this room: ZXing-cpp, libjpeg and libpng.
[[nodiscard]] std::vector<Library> libraries();

}  // namespace loopledger::tag
