// SPDX-License-Identifier: MIT
#include "page/label_pages.h"

#include <fmt/format.h>

namespace loopledger::page {
namespace {

constexpr double kCutLine = 0.1;
constexpr double kCutGrey = 0.6;

/// Lines between plain paper's labels, across the whole grid: a ruler and a blade cut all at once.
void draw_cut_lines(Canvas& canvas, const LabelGrid& grid) {
  const double right = grid.left + grid.columns * grid.pitch_x;
  const double bottom = grid.top + grid.rows * grid.pitch_y;
  for (int column = 0; column <= grid.columns; ++column) {
    const double x = grid.left + column * grid.pitch_x;
    canvas.line(x, grid.top, x, bottom, kCutLine, kCutGrey);
  }
  for (int row = 0; row <= grid.rows; ++row) {
    const double y = grid.top + row * grid.pitch_y;
    canvas.line(grid.left, y, right, y, kCutLine, kCutGrey);
  }
}

}  // namespace

Result<Document> label_pages(std::size_t count, const LabelRun& run, const FontMetrics& metrics,
                             Diagnostics& warnings, const DrawLabel& draw) {
  const Result<LabelGrid> grid = label_grid(run.stock);
  if (!grid) {
    return grid.diagnostics();
  }
  if (run.start < 1 || run.start > grid->per_sheet()) {
    return error("label-start", fmt::format("expected a first label from 1 to {}, found {}",
                                            grid->per_sheet(), run.start));
  }
  Document document;
  document.title = run.title;
  document.created = run.created;
  Canvas canvas(metrics, warnings);
  int cell = run.start - 1;
  for (std::size_t index = 0; index < count; ++index) {
    if (document.pages.empty() || cell == grid->per_sheet()) {
      cell = document.pages.empty() ? cell : 0;
      document.pages.push_back(
          {.width = grid->paper_width, .height = grid->paper_height, .items = {}});
      canvas.turn_to(document.pages.back());
      if (grid->cut_lines) {
        draw_cut_lines(canvas, *grid);
      }
    }
    draw(canvas, *grid, index, cell++, document);
  }
  return document;
}

}  // namespace loopledger::page
