// SPDX-License-Identifier: MIT
//
// The little of TOML that records write: strings. (Files are never written by re-serialising a
// parsed document: that would lose comments and change numbers.)
#pragma once

#include <string>
#include <string_view>

namespace loopledger::records {

/// A TOML basic string. Control characters, line separators and what could turn the direction of
/// text are escaped, so the line shows as it is. @pre well-formed UTF-8
[[nodiscard]] std::string toml_string(std::string_view text);

}  // namespace loopledger::records
