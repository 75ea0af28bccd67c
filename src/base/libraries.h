// SPDX-License-Identifier: MIT
//
// Which library stands behind a room, for `--version`. A room that stands on others lists them in
// its own libraries.h, because it alone may include their headers.
#pragma once

#include <string>
#include <vector>

namespace loopledger {

struct Library {
  std::string name;
  std::string version;  ///< of the library that runs where it says so, else of its headers
};

/// Of this room: fmt.
[[nodiscard]] std::vector<Library> base_libraries();

}  // namespace loopledger
