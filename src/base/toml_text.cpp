// SPDX-License-Identifier: MIT
#include "base/toml_text.h"

#include <algorithm>

#include "base/text.h"

namespace loopledger {
namespace {

/// Index behind the text that a quotation mark at `at` begins: '…', "…", '''…''' or """…""".
std::size_t behind_text(std::string_view text, std::size_t at) {
  const char quote = text[at];
  const std::string_view three = quote == '"' ? R"(""")" : "'''";
  const bool lines = text.substr(at).starts_with(three);
  for (std::size_t i = at + (lines ? 3 : 1); i < text.size(); ++i) {
    if (quote == '"' && text[i] == '\\') {
      ++i;
    } else if (lines && text.substr(i).starts_with(three)) {
      i += 3;  // two more may belong to the text
      return i +
             std::min<std::size_t>(2, std::min(text.find_first_not_of(quote, i), text.size()) - i);
    } else if (!lines && (text[i] == quote || text[i] == '\n')) {
      return i + 1;
    }
  }
  return text.size();
}

}  // namespace

std::optional<std::size_t> first_overlong_key(std::string_view text) {
  std::size_t parts = 1;
  for (std::size_t i = 0; i < text.size();) {
    const char c = text[i];
    if (c == '"' || c == '\'') {
      i = behind_text(text, i);
      continue;
    }
    if (c == '#') {
      i = std::min(text.find('\n', i), text.size());
      continue;
    }
    if (c == '.' && ++parts > kMaxKeyParts) {
      return i;
    }
    if (c == '\n' || c == '=' || c == ',' || c == '{' || c == '[') {
      parts = 1;
    }
    ++i;
  }
  return std::nullopt;
}

std::string plain_reason(std::string_view description) {
  const auto colon = description.find(": ");
  const bool prefix = description.starts_with("Error while") && colon != std::string_view::npos;
  return printable(prefix ? description.substr(colon + 2) : description);
}

}  // namespace loopledger
