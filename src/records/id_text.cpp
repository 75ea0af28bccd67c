// SPDX-License-Identifier: MIT
#include "records/id_text.h"

#include <charconv>

namespace loopledger::records {

std::optional<MotorId> printed_id_from(std::string_view text) {
  const std::size_t hyphen = text.find('-');
  if (hyphen == std::string_view::npos || !is_stem(text.substr(0, hyphen))) {
    return std::nullopt;
  }
  MotorId id{std::string(text.substr(0, hyphen)), 0};
  const std::string_view number = text.substr(hyphen + 1);
  const auto [end, problem] =
      std::from_chars(number.data(), number.data() + number.size(), id.number);
  const bool whole = problem == std::errc() && end == number.data() + number.size();
  if (!whole || id.number < 1 || id.number > kMotorNumberMax || printed(id) != text) {
    return std::nullopt;
  }
  for (const char c : id.stem) {
    if (c >= 'a' && c <= 'z') {
      return std::nullopt;
    }
  }
  return id;
}

}  // namespace loopledger::records
