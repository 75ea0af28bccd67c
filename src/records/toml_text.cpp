// SPDX-License-Identifier: MIT
#include "records/toml_text.h"

#include <fmt/format.h>

#include "base/text.h"

namespace loopledger::records {

std::string toml_string(std::string_view text) {
  std::string out = "\"";
  for (const char32_t point : code_points(text)) {
    const std::string plain = to_utf8(std::span(&point, 1));
    if (point == U'"' || point == U'\\') {
      out += '\\' + plain;
    } else if (printable(plain) == plain && point != 0x2028 && point != 0x2029) {
      out += plain;
    } else if (point > 0xffff) {
      out += fmt::format("\\U{:08x}", static_cast<unsigned>(point));
    } else {
      out += fmt::format("\\u{:04x}", static_cast<unsigned>(point));
    }
  }
  return out + '"';
}

}  // namespace loopledger::records
