// SPDX-License-Identifier: MIT
//
// Text as a PDF's title and bookmarks hold it. The library's own encoder makes a space of what lies
// beyond U+FFFF; viewers have fonts for that. Private to pdf/.
#pragma once

#include <string>
#include <string_view>

namespace loopledger::pdf {

/// UTF-16BE with its byte order mark: a "text string" of ISO 32000-1, 7.9.2.2.
[[nodiscard]] std::string text_string(std::string_view utf8);

}  // namespace loopledger::pdf
