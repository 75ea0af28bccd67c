// SPDX-License-Identifier: MIT
//
// What every reader of TOML needs beside the library: a bound on the depth that the library does
// not have, and its messages as people need them. Nothing here knows the library.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace loopledger {

/// Parts of a dotted key. The library nests a table for each and bounds brackets only: a key of
/// many thousand parts, or keys of many parts in brackets in brackets, would overflow the stack
/// when its tables are walked or destroyed.
inline constexpr std::size_t kMaxKeyParts = 8;

/// Byte offset of the first dot that takes a key past kMaxKeyParts, outside of quoted text and
/// comments; empty when there is none. A value with so many dots is no TOML either.
[[nodiscard]] std::optional<std::size_t> first_overlong_key(std::string_view text);

/// The library's description of an error without its "Error while parsing …: ", which says how the
/// library works, and harmless to a terminal.
[[nodiscard]] std::string plain_reason(std::string_view description);

}  // namespace loopledger
