// SPDX-License-Identifier: MIT
#include "page/labels.h"

#include <fmt/format.h>

#include <set>

#include "page/label_face.h"
#include "page/label_grid.h"
#include "page/label_qr.h"
#include "tag/id.h"

namespace loopledger::page {
namespace {

constexpr double kCutLine = 0.1;
constexpr double kCutGrey = 0.6;

std::vector<std::string> tags_of(const LabelFigures& label, const std::string& link) {
  return link.empty() ? tag::tag_texts(label.tag)
                      : std::vector<std::string>{tag::tag_address(link, label.id)};
}

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

void draw_label(Canvas& canvas, const LabelFigures& label, const LabelGrid& grid, int cell,
                const LabelRun& run, Diagnostics& warnings, std::set<std::string>& left_out) {
  const std::string id = tag::with_check(label.id);
  canvas.set_place("the label of " + id);
  Rect room = grid.room(cell);
  Result<PlacedQr> placed = place_qr(tags_of(label, run.link), grid.cell(cell), room, grid.dpi);
  if (placed) {
    room.w = placed->text_width;
    canvas.qr(std::move(placed->qr));
  } else {
    for (const Diagnostic& problem : placed.diagnostics()) {
      warnings.push_back(
          warning(problem.code, "the label of " + id + ": " + problem.message, problem.hint));
    }
  }
  for (std::string& name : draw_label_text(canvas, label, room, run.units)) {
    left_out.insert(std::move(name));
  }
}

}  // namespace

Result<Document> labels(const std::vector<LabelFigures>& motors, const LabelRun& run,
                        const FontMetrics& metrics) {
  const Result<LabelGrid> grid = label_grid(run.stock);
  if (!grid) {
    return grid.diagnostics();
  }
  if (motors.empty()) {
    return error("label-none", "there is no motor to print a label for");
  }
  if (run.start < 1 || run.start > grid->per_sheet()) {
    return error("label-start", fmt::format("expected a first label from 1 to {}, found {}",
                                            grid->per_sheet(), run.start));
  }
  Document document;
  document.title = run.title;
  document.created = run.created;
  Diagnostics warnings;
  Canvas canvas(metrics, warnings);
  std::set<std::string> owners;
  std::set<std::string> left_out;
  int cell = run.start - 1;
  for (const LabelFigures& label : motors) {
    if (document.pages.empty() || cell == grid->per_sheet()) {
      cell = document.pages.empty() ? cell : 0;
      document.pages.push_back(
          {.width = grid->paper_width, .height = grid->paper_height, .items = {}});
      canvas.turn_to(document.pages.back());
      if (grid->cut_lines) {
        draw_cut_lines(canvas, *grid);
      }
    }
    draw_label(canvas, label, *grid, cell++, run, warnings, left_out);
    if (!label.owner.empty() && owners.insert(label.owner).second) {
      document.outline.push_back({.title = label.owner, .page = document.pages.size() - 1});
    }
  }
  if (!left_out.empty()) {
    warnings.push_back(note(
        "label-less", fmt::format("the labels have no room for: {}", fmt::join(left_out, "; ")),
        "choose larger labels to have them printed"));
  }
  return {std::move(document), std::move(warnings)};
}

}  // namespace loopledger::page
