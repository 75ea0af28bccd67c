// SPDX-License-Identifier: MIT
//
// A row to write on with a pen: words with blanks between them, which share the width that the
// words leave. Private to page/.
#pragma once

#include <string>
#include <vector>

#include "page/canvas.h"
#include "sheets/label_grid.h"

namespace loopledger::sheets {

struct BlankPiece {
  bool blank = false;
  std::string text;
  std::size_t part = 0;  ///< parts are left out whole, from the last one
};

/// Millimetres; on low labels just enough to write in.
[[nodiscard]] double pen_row_height(bool roomy);

/// Parts whose blanks would be too short to write a number in are left out, the first one never.
void draw_blanks(page::Canvas& canvas, std::vector<BlankPiece> pieces, const Rect& row,
                 const page::Style& style);

}  // namespace loopledger::sheets
