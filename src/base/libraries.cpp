// SPDX-License-Identifier: MIT
#include "base/libraries.h"

#include <fmt/core.h>

namespace loopledger {

std::vector<Library> base_libraries() {
  return {{"fmt", fmt::format("{}.{}.{}", FMT_VERSION / 10000, FMT_VERSION / 100 % 100,
                              FMT_VERSION % 100)}};
}

}  // namespace loopledger
