// SPDX-License-Identifier: MIT
//
// `mend FILE`: repairs a damaged record, or takes over what was changed in it by hand.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "commands/world.h"

namespace loopledger::commands {

struct MendRequest {
  std::string file;     ///< a record's path, or a motor's id
  std::string records;  ///< empty: as records_folder() says
  bool accept = false;  ///< lines and figures that were changed by hand
};

struct MendAnswer {
  std::string path;                              ///< of the record; empty: it can't be told
  std::optional<std::vector<std::string>> done;  ///< a sentence each; empty: it can't be mended
  Diagnostics said;                              ///< errors, or what only a person can put right
  int exit_code = 0;                             ///< kInputErrors while anything is left to do
};

/// What is taken out of a record is kept beside it. Errors: id-form, id-check, none-record, disk-….
[[nodiscard]] MendAnswer mend(const MendRequest& request, World& world);

}  // namespace loopledger::commands
