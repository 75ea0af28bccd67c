// SPDX-License-Identifier: MIT
//
// What kind of character a code point is, as far as setting text from left to right, one glyph
// after the other, needs to know; and putting marks and letters together. Latin, Greek and Cyrillic
// are covered; the ranges are The Unicode Standard's blocks.
#pragma once

#include <span>
#include <vector>

namespace loopledger {

/// A mark that belongs to the letter before it, or what joins it to the letter behind it.
[[nodiscard]] bool is_mark(char32_t c);

/// A letter of a script that is written from right to left.
[[nodiscard]] bool runs_from_right(char32_t c);

/// A letter whose shape or place depends on its neighbours: glyph by glyph it would be wrong.
[[nodiscard]] bool joins_neighbours(char32_t c);

/// Takes no room and has no ink: soft hyphens, joiners, variation selectors, order of writing.
[[nodiscard]] bool is_invisible(char32_t c);

/// Tabs, line ends and other controls: what is no text. Drawn as a space.
[[nodiscard]] bool is_control_code(char32_t c);

/// The single character for a letter and its mark, or 0 when there is none: The Unicode Standard's
/// canonical compositions.
[[nodiscard]] char32_t composed(char32_t letter, char32_t mark);

/// The letter of a character that is a letter with a mark, or 0 when it is none; of two marks the
/// outer one goes. Latin, Greek and Cyrillic.
[[nodiscard]] char32_t without_mark(char32_t c);

/// Letters with marks behind them as single characters, wherever there is one.
[[nodiscard]] std::vector<char32_t> composed(std::span<const char32_t> text);

}  // namespace loopledger
