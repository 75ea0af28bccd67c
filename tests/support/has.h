// SPDX-License-Identifier: MIT
//
// Whether a part stands in a text.
#pragma once

#include <string>

namespace loopledger::test {

[[nodiscard]] inline bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace loopledger::test
