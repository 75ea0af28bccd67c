// SPDX-License-Identifier: MIT
#include "sheets/label_pages.h"

#include <fmt/format.h>

#include <algorithm>

namespace loopledger::sheets {
namespace {

constexpr double kCutLine = 0.1;
constexpr double kCutGrey = 0.6;
constexpr double kMarkLine = 0.2;
constexpr double kMarkLength = 5;
constexpr double kMarkGap = 1;

/// Lines between plain paper's labels, across the whole grid: a ruler and a blade cut all at once.
/// Marks beyond the grid lead the ruler when the first cuts have taken the lines' ends away.
void draw_cut_lines(page::Canvas& canvas, const LabelGrid& grid) {
  const double right = grid.left + grid.columns * grid.pitch_x;
  const double bottom = grid.top + grid.rows * grid.pitch_y;
  const double across = std::min(kMarkLength, grid.left - kMarkGap - grid.edge);
  const double down = std::min(kMarkLength, grid.top - kMarkGap - grid.edge);
  for (int column = 0; column <= grid.columns; ++column) {
    const double x = grid.left + column * grid.pitch_x;
    canvas.line(x, grid.top, x, bottom, kCutLine, kCutGrey);
    if (down > 0) {
      canvas.line(x, grid.top - kMarkGap - down, x, grid.top - kMarkGap, kMarkLine);
      canvas.line(x, bottom + kMarkGap, x, bottom + kMarkGap + down, kMarkLine);
    }
  }
  for (int row = 0; row <= grid.rows; ++row) {
    const double y = grid.top + row * grid.pitch_y;
    canvas.line(grid.left, y, right, y, kCutLine, kCutGrey);
    if (across > 0) {
      canvas.line(grid.left - kMarkGap - across, y, grid.left - kMarkGap, y, kMarkLine);
      canvas.line(right + kMarkGap, y, right + kMarkGap + across, y, kMarkLine);
    }
  }
}

}  // namespace

Result<page::Document> label_pages(std::size_t count, const LabelRun& run,
                                   const page::FontMetrics& metrics, Diagnostics& warnings,
                                   const DrawLabel& draw) {
  const Result<LabelGrid> grid = label_grid(run.stock);
  if (!grid) {
    return grid.diagnostics();
  }
  if (run.start < 1 || run.start > grid->per_sheet()) {
    return error("label-start", fmt::format("expected a first label from 1 to {}, found {}",
                                            grid->per_sheet(), run.start));
  }
  page::Document document;
  document.title = run.title;
  document.created = run.created;
  page::Canvas canvas(metrics, warnings);
  int cell = run.start - 1;
  const std::size_t copies = static_cast<std::size_t>(std::clamp(run.copies, 1, kMaxCopies));
  for (std::size_t printed = 0; printed < count * copies; ++printed) {
    if (document.pages.empty() || cell == grid->per_sheet()) {
      cell = document.pages.empty() ? cell : 0;
      document.pages.push_back(
          {.width = grid->paper_width, .height = grid->paper_height, .items = {}});
      canvas.turn_to(document.pages.back());
      if (grid->cut_lines) {
        draw_cut_lines(canvas, *grid);
      }
    }
    draw(canvas, *grid, printed / copies, cell++, document);
  }
  return document;
}

}  // namespace loopledger::sheets
