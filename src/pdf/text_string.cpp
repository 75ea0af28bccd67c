// SPDX-License-Identifier: MIT
#include "pdf/text_string.h"

#include <cstdint>

#include "base/text.h"

namespace loopledger::pdf {

std::string text_string(std::string_view utf8) {
  std::string out;
  const auto put = [&out](std::uint32_t unit) {
    out += static_cast<char>(unit >> 8U);
    out += static_cast<char>(unit & 0xFFU);
  };
  put(0xFEFF);
  for (const char32_t c : code_points(utf8)) {
    const auto point = static_cast<std::uint32_t>(c);
    if (point > 0xFFFF) {
      put(0xD800 + ((point - 0x10000) >> 10U));
      put(0xDC00 + ((point - 0x10000) & 0x3FFU));
    } else {
      put(point);
    }
  }
  return out;
}

}  // namespace loopledger::pdf
