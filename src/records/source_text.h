// SPDX-License-Identifier: MIT
//
// The piece of a text that a parser's places name, for keeping values that this version can't
// interpret just as they stand.
#pragma once

#include <string>
#include <string_view>

namespace loopledger::records {

/// 1-based line and column, columns count code points.
struct TextPlace {
  unsigned line = 0;
  unsigned column = 0;
};

/// From `begin` up to, not including, `end`; blanks at the ends taken off. Empty when the places
/// are not in the text.
[[nodiscard]] std::string source_text(std::string_view text, TextPlace begin, TextPlace end);

}  // namespace loopledger::records
