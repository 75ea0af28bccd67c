// SPDX-License-Identifier: MIT
#include "sheets/label_blanks.h"

#include <algorithm>

#include "base/text.h"

namespace loopledger::sheets {
namespace {

constexpr double kRow = 5.6;  // mm
constexpr double kLowRow = 5.0;
constexpr double kShortestBlank = 6.5;
constexpr double kPieceGap = 0.8;
constexpr double kLineAbove = 1.3;  // the row's foot

struct BlankRow {
  double words = 0;
  int blanks = 0;
};

BlankRow measured(page::Canvas& canvas, const std::vector<BlankPiece>& pieces,
                  const page::Style& style) {
  BlankRow row;
  for (const BlankPiece& piece : pieces) {
    row.blanks += piece.blank ? 1 : 0;
    row.words += piece.blank ? 0 : canvas.width_of(trimmed(piece.text), style);
  }
  row.words += kPieceGap * static_cast<double>(pieces.size() - 1);
  return row;
}

}  // namespace

double pen_row_height(bool roomy) { return roomy ? kRow : kLowRow; }

void draw_blanks(page::Canvas& canvas, std::vector<BlankPiece> pieces, const Rect& row,
                 const page::Style& style) {
  std::erase_if(
      pieces, [](const BlankPiece& piece) { return !piece.blank && trimmed(piece.text).empty(); });
  BlankRow sizes = measured(canvas, pieces, style);
  while (pieces.back().part > 0 && row.w - sizes.words < kShortestBlank * sizes.blanks) {
    const std::size_t last = pieces.back().part;
    std::erase_if(pieces, [last](const BlankPiece& piece) { return piece.part == last; });
    sizes = measured(canvas, pieces, style);
  }
  const double blank = std::max(0.0, (row.w - sizes.words) / std::max(sizes.blanks, 1));
  const double y = row.y + row.h - kLineAbove;
  double x = row.x;
  for (const BlankPiece& piece : pieces) {
    if (piece.blank) {
      canvas.blank(x, y, blank);
      x += blank;
    } else {
      x += canvas.text(x, y, trimmed(piece.text), style);
    }
    x += kPieceGap;
  }
}

}  // namespace loopledger::sheets
