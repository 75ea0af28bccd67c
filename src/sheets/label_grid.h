// SPDX-License-Identifier: MIT
//
// Where labels stand on their sheet: the stock's cells, exact, and in each the room that may be
// printed on. Plain paper gets a grid of its own, with lines to cut along.
#pragma once

#include "base/result.h"
#include "plan/stock.h"

namespace loopledger::sheets {

inline constexpr double kPaperEdge = 5;   ///< mm; printers may not reach nearer to the paper's edge
inline constexpr double kLabelInset = 2;  ///< mm kept clear inside each label's edge [paper]

/// Millimetres from the paper's top left corner.
struct Rect {
  double x = 0, y = 0, w = 0, h = 0;
};

struct LabelGrid {
  double paper_width = 0;
  double paper_height = 0;
  int columns = 0;
  int rows = 0;
  double label_width = 0;
  double label_height = 0;
  double pitch_x = 0;
  double pitch_y = 0;
  double left = 0;
  double top = 0;
  int dpi = 0;
  double edge = kPaperEdge;  ///< a label printer reaches nearer to the edge
  bool cut_lines = false;    ///< plain paper
  /// Size of the printable room, the same in every cell.
  double room_width = 0;
  double room_height = 0;

  [[nodiscard]] int per_sheet() const { return columns * rows; }
  /// The label itself. `index` counts from 0, row by row.
  [[nodiscard]] Rect cell(int index) const;
  /// What may be printed on: inside the label's inset and the paper's edge.
  [[nodiscard]] Rect room(int index) const;
};

/// That labels lie on their sheet is read_stock's to see. Error `page-stock`: they leave no room to
/// print on.
[[nodiscard]] Result<LabelGrid> label_grid(const plan::Stock& stock);

}  // namespace loopledger::sheets
