// SPDX-License-Identifier: MIT
#include "base/motor_id.h"

#include <fmt/format.h>

#include <algorithm>
#include "base/text.h"

namespace loopledger {

std::string printed(const MotorId& id) { return fmt::format("{}-{:02}", id.stem, id.number); }

bool is_stem(std::string_view text) {
  return !text.empty() && text.size() <= kStemMaxLength && std::ranges::all_of(text, [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || is_digit(c);
  });
}

}  // namespace loopledger
