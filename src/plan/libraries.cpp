// SPDX-License-Identifier: MIT
#include "plan/libraries.h"

#include <fmt/format.h>
#include <toml++/toml.h>

namespace loopledger::plan {

std::vector<Library> libraries() {
  return {{"toml++", fmt::format("{}.{}.{}", TOML_LIB_MAJOR, TOML_LIB_MINOR, TOML_LIB_PATCH)}};
}

}  // namespace loopledger::plan
