// SPDX-License-Identifier: MIT
//
// The motors of a batch by whose they are, in the order the owners first come. Private to page/.
#pragma once

#include <string>
#include <vector>

#include "calc/figures.h"

namespace loopledger::sheets {

struct Owner {
  std::string name;                 ///< may be empty
  std::vector<std::size_t> motors;  ///< indices into Batch::motors
  /// What to head the owner's part of a sheet with.
  [[nodiscard]] std::string shown() const { return name.empty() ? "Motors" : name; }
};

[[nodiscard]] std::vector<Owner> owners_of(const calc::Batch& batch);

}  // namespace loopledger::sheets
