// SPDX-License-Identifier: MIT
#include "sheets/owners.h"

#include <algorithm>

namespace loopledger::sheets {

std::vector<Owner> owners_of(const calc::Batch& batch) {
  std::vector<Owner> owners;
  for (std::size_t i = 0; i < batch.motors.size(); ++i) {
    const std::string& name = batch.motors[i].planned.owner;
    auto found = std::find_if(owners.begin(), owners.end(),
                              [&](const Owner& owner) { return owner.name == name; });
    if (found == owners.end()) {
      found = owners.insert(owners.end(), {.name = name, .motors = {}});
    }
    found->motors.push_back(i);
  }
  return owners;
}

}  // namespace loopledger::sheets
