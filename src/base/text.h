// SPDX-License-Identifier: MIT
//
// Small helpers on text that every stage needs: UTF-8, spelling hints, and making untrusted text
// harmless before it reaches a terminal.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace loopledger {

/// Byte offset of the first ill-formed UTF-8 sequence (overlong forms and surrogates included), or
/// empty when all is well.
[[nodiscard]] std::optional<std::size_t> first_bad_utf8(std::string_view text);

/// Code points of well-formed UTF-8; an ill-formed byte becomes U+FFFD.
[[nodiscard]] std::vector<char32_t> code_points(std::string_view text);
[[nodiscard]] std::string to_utf8(std::span<const char32_t> points);
[[nodiscard]] std::size_t code_point_count(std::string_view text);

/// Columns that the text takes in a terminal: combining marks 0, wide East Asian characters 2.
[[nodiscard]] int terminal_width(std::string_view text);

/// The text with C0, C1 and bidirectional controls and ill-formed bytes replaced by a visible
/// escape such as \x1b or \u202e.
[[nodiscard]] std::string printable(std::string_view text);

/// The first `columns` terminal columns of the text, ended by "…" when it was cut.
[[nodiscard]] std::string shortened(std::string_view text, int columns);

/// Whether the byte is one of 0 to 9.
[[nodiscard]] constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

[[nodiscard]] std::string lower_ascii(std::string_view text);
[[nodiscard]] std::string upper_ascii(std::string_view text);
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// The candidate within a small edit distance of `word` (swaps of neighbours count one), or empty.
[[nodiscard]] std::string_view nearest(std::string_view word,
                                       std::span<const std::string_view> candidates);

/// `prefix "a", "b" or "c"` style list: joins with ", " and a last " or ".
[[nodiscard]] std::string either(std::span<const std::string_view> words);

/// "3 motors", "1 motor"
[[nodiscard]] std::string how_many(std::size_t count, std::string_view noun);

}  // namespace loopledger
