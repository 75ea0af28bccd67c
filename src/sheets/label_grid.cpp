// SPDX-License-Identifier: MIT
#include "sheets/label_grid.h"

#include <fmt/format.h>

#include <algorithm>

namespace loopledger::sheets {
namespace {

constexpr double kPlainWidth = 70;
constexpr double kPlainHeight = 37;
constexpr double kLeastRoom = 10;  // mm

struct Span {
  double from = 0;
  double to = 0;
};

/// What of a label that begins at `start` may be printed on, along one axis.
Span printable(double start, double size, double paper, double edge) {
  return {std::max(start + kLabelInset, edge), std::min(start + size - kLabelInset, paper - edge)};
}

double least_room(double first, double pitch, int count, double size, double paper, double edge) {
  double least = size;
  for (int i = 0; i < count; ++i) {
    const Span span = printable(first + i * pitch, size, paper, edge);
    least = std::min(least, span.to - span.from);
  }
  return least;
}

LabelGrid plain_grid(LabelGrid grid) {
  grid.columns = std::max(1, static_cast<int>((grid.paper_width - 2 * kPaperEdge) / kPlainWidth));
  grid.rows = std::max(1, static_cast<int>((grid.paper_height - 2 * kPaperEdge) / kPlainHeight));
  grid.label_width = grid.pitch_x = kPlainWidth;
  grid.label_height = grid.pitch_y = kPlainHeight;
  grid.left = (grid.paper_width - grid.columns * kPlainWidth) / 2;
  grid.top = (grid.paper_height - grid.rows * kPlainHeight) / 2;
  grid.cut_lines = true;
  return grid;
}

}  // namespace

Rect LabelGrid::cell(int index) const {
  const int column = index % columns;
  const int row = index / columns;
  return {left + column * pitch_x, top + row * pitch_y, label_width, label_height};
}

Rect LabelGrid::room(int index) const {
  const Rect label = cell(index);
  const Span across = printable(label.x, label.w, paper_width, edge);
  const Span down = printable(label.y, label.h, paper_height, edge);
  return {(across.from + across.to - room_width) / 2, (down.from + down.to - room_height) / 2,
          room_width, room_height};
}

Result<LabelGrid> label_grid(const plan::Stock& stock) {
  LabelGrid grid{.paper_width = stock.paper_width.in_mm(),
                 .paper_height = stock.paper_height.in_mm(),
                 .columns = stock.columns,
                 .rows = stock.rows,
                 .label_width = stock.label_width.in_mm(),
                 .label_height = stock.label_height.in_mm(),
                 .pitch_x = stock.pitch_x.in_mm(),
                 .pitch_y = stock.pitch_y.in_mm(),
                 .left = stock.left.in_mm(),
                 .top = stock.top.in_mm(),
                 .dpi = stock.dpi,
                 .edge = stock.dpi > 0 ? kLabelInset : kPaperEdge};
  if (!stock.is_labels()) {
    grid = plain_grid(grid);
  }
  grid.room_width = least_room(grid.left, grid.pitch_x, grid.columns, grid.label_width,
                               grid.paper_width, grid.edge);
  grid.room_height = least_room(grid.top, grid.pitch_y, grid.rows, grid.label_height,
                                grid.paper_height, grid.edge);
  if (grid.room_width < kLeastRoom || grid.room_height < kLeastRoom) {
    return error(
        "page-stock",
        fmt::format("the labels of stock {} leave {:.1f} x {:.1f} mm to print on, {} x {} mm "
                    "is the least",
                    stock.name, grid.room_width, grid.room_height, kLeastRoom, kLeastRoom));
  }
  return grid;
}

}  // namespace loopledger::sheets
