// SPDX-License-Identifier: MIT
//
// A picture of one bag, a boxful or a whole sheet -> the labels in it. A ladder of readings, cheap
// first: the picture as it is, then tile by tile with what was read painted over (the library pairs
// up parts of neighbouring symbols otherwise), then the places where a symbol was seen but not
// decoded, sharpened and enlarged, and only if still nothing was read the whole picture so, at last
// module by module (photo/grid_read.h). At the end the corner squares that belong to nothing read
// so far show where else to climb.
#pragma once

#include <string>
#include <vector>

#include "photo/grey.h"
#include "photo/symbols.h"
#include "tag/tag_text.h"

namespace loopledger::photo {

struct FoundLabel {
  std::string text;
  tag::TagFigures figures;
  Symbol symbol;  ///< where it lies in the picture
};

struct Scan {
  std::vector<FoundLabel> labels;         ///< each text once, from the top down
  std::vector<std::string> foreign;       ///< texts of symbols that are no label of ours
  std::vector<std::string> other_layout;  ///< labels with a version word that is not known here
  std::vector<Symbol> unread;             ///< places that looked like a symbol, not decoded
  std::size_t more = 0;  ///< labels that were not read, about: with them it is more than a boxful
  bool crowded = false;  ///< more corner squares than a boxful of labels has: not all was tried
};

inline constexpr std::size_t kBoxful = 60;  ///< labels: what one picture is meant to hold at most

/// Reads only what tag::read_label accepts. The same picture always gives the same result.
[[nodiscard]] Scan scan_picture(const Grey& picture);

}  // namespace loopledger::photo
