// SPDX-License-Identifier: MIT
//
// What stands on a label, as data: its lines from top to bottom, their sizes, and which of them go
// first when a label is low. The same layout serves every stock: sizes are for a label of 37 mm
// height and follow the label's height within bounds. plan/read_label_layout.h reads the TOML of
// templates/layouts; sheets/label_face.h sets it.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.h"

namespace loopledger::plan {

/// What a layout may name in braces. Never reused for something else.
inline constexpr std::array<std::string_view, 20> kLabelFields{
    "id", "state",          // AB-01-9; EST or MADE
    "for", "owner",         //
    "turns", "turns_word",  // 1180; "wind to", or "best" once it has been wound
    "torque", "torque_unit", "mass", "loop", "strands", "lot", "date", "estimate",
    "breaks",  // turns to wind to and where it breaks, only before
               // break-in
    "piece", "strip", "width", "left", "left_other",  // remnants: the length in both
                                                      // systems of units
};

/// A stretch of a line: words as they are, a field's value, or a blank for a pen.
struct LabelPiece {
  enum class Kind { words, field, blank };
  Kind kind = Kind::words;
  std::string text;  ///< of words; the name of a field
};

/// Pieces that belong together. A part with a field that is not known is left out; parts are
/// joined by " · ", and stand one below the other where they don't fit beside each other.
using LabelPart = std::vector<LabelPiece>;

struct LabelLine {
  std::string name;  ///< as said when there is no room for it
  std::vector<LabelPart> parts;
  std::vector<LabelPart> otherwise;   ///< when nothing of `parts` is known
  Length capitals = Length::mm(2.1);  ///< height of capitals and digits on a label of 37 mm
  Length least = Length::mm(1.4);     ///< fitted text is not made smaller
  bool fixed = false;                 ///< the size does not follow the label's height
  bool bold = false;
  bool badge = false;  ///< EST or MADE stands in a box at the end of this line
  int wrap = 1;        ///< lines that it may take on labels with room for it
  int rank = 5;        ///< 1 is kept first when a label is low
};

struct LabelLayout {
  std::string name;
  std::string text;                       ///< what it is, in a few words
  Share code_share = Share::percent(44);  ///< of the label's width for the QR code; 0: no code
  std::vector<LabelLine> lines;
};

/// The layouts of one run: of a motor before and after break-in, and of a remnant.
struct LabelLayouts {
  LabelLayout slip;
  LabelLayout bag;
  LabelLayout remnant;
};

}  // namespace loopledger::plan
