// SPDX-License-Identifier: MIT
#include "records/source_text.h"

#include <optional>

#include "base/text.h"

namespace loopledger::records {
namespace {

std::optional<std::size_t> offset_of(std::string_view text, TextPlace place) {
  std::size_t at = 0;
  for (unsigned line = 1; line < place.line; ++line) {
    at = text.find('\n', at);
    if (at == std::string_view::npos) {
      return std::nullopt;
    }
    ++at;
  }
  for (unsigned column = 1; column < place.column && at < text.size(); ++column) {
    do {
      ++at;
    } while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xc0U) == 0x80U);
  }
  return at;
}

}  // namespace

std::string source_text(std::string_view text, TextPlace begin, TextPlace end) {
  const auto from = offset_of(text, begin);
  const auto to = offset_of(text, end);
  if (!from || !to || *to < *from || *to > text.size()) {
    return {};
  }
  return std::string(trimmed(text.substr(*from, *to - *from)));
}

}  // namespace loopledger::records
