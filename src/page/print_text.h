// SPDX-License-Identifier: MIT
//
// Making any text fit for a face: what can be drawn glyph by glyph from left to right stays, and
// what can't is replaced by something visible that a warning names. Nothing is drawn as an empty
// box or in a wrong order. Private to page/.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "page/page.h"

namespace loopledger::page {

struct Replaced {
  const char* code = "";
  std::string message;  ///< without the place: "the fonts can't show “☃” (U+2603), …"
};

struct PrintText {
  std::string utf8;
  std::vector<Replaced> replaced;
};

/// Letters with marks behind them become single characters. Tabs, line ends and other controls
/// become spaces; soft hyphens, joiners and variation selectors go without a word, and spaces and
/// hyphens of a kind that the face lacks become the ordinary ones. `page-glyph`: a character that
/// the face lacks becomes its letter without the mark, else “?”; a mark that is in no single
/// character with its letter is left out. `page-script`: letters that run from right to left, or
/// join or stack, become “?”.
[[nodiscard]] PrintText print_text(std::string_view utf8, Face face, const FontMetrics& metrics);

}  // namespace loopledger::page
