// SPDX-License-Identifier: MIT
#include "page/labels.h"

#include <fmt/format.h>

#include <set>

#include "page/label_face.h"
#include "page/label_grid.h"
#include "page/label_pages.h"
#include "page/label_qr.h"
#include "page/label_values.h"
#include "tag/id.h"
#include "tag/qr_fit.h"

namespace loopledger::page {
namespace {

std::vector<std::string> tags_of(const LabelFigures& label, const std::string& link) {
  return link.empty() ? tag::tag_texts(label.tag)
                      : std::vector<std::string>{tag::tag_address(link, label.id)};
}

struct PlacedCode {
  Qr qr;
  LabelRoom room;
};

/// The code beside all of the text, or, where the first line would have to shrink for it, below a
/// first line over the whole width; that only if the code stays one that cameras read well.
Result<PlacedCode> placed_code(const std::vector<std::string>& texts, const LabelGrid& grid,
                               int index, const plan::LabelLayout& layout, double first_width) {
  const Rect cell = grid.cell(index);
  const Rect room = grid.room(index);
  const double share = layout.code_share.as_ratio();
  auto beside = place_qr(texts, cell, room, share, grid.dpi);
  if (!beside || first_width > beside->text_width) {
    const double first = first_line_height(layout, room.h);
    const Rect low_cell{cell.x, room.y + first, cell.w, cell.y + cell.h - room.y - first};
    const Rect low_room{room.x, room.y + first, room.w, room.h - first};
    auto below = place_qr(texts, low_cell, low_room, share, grid.dpi);
    const double wanted = beside ? std::min(beside->qr.module, tag::kModuleGood.in_mm()) : 0;
    if (below && below->qr.module >= wanted - 1e-9) {
      const Rect column{room.x, room.y, below->text_width, room.h};
      return PlacedCode{std::move(below->qr), {.column = column, .first_width = room.w}};
    }
  }
  if (!beside) {
    return beside.diagnostics();
  }
  const Rect column{room.x, room.y, beside->text_width, room.h};
  return PlacedCode{std::move(beside->qr), {.column = column, .first_width = column.w}};
}

void draw_label(Canvas& canvas, const LabelFigures& label, const LabelGrid& grid, int cell,
                const LabelRun& run, Diagnostics& warnings, std::set<std::string>& left_out) {
  const std::string id = tag::with_check(label.id);
  canvas.set_place("the label of " + id);
  const LabelContent content = label_content(label, run.units);
  const plan::LabelLayout& layout = content.made ? run.layouts.bag : run.layouts.slip;
  const Rect whole = grid.room(cell);
  LabelRoom room{.column = whole, .first_width = whole.w};
  if (layout.code_share.as_ratio() > 0) {
    const double first = first_line_width(canvas, layout, content, whole.h);
    auto placed = placed_code(tags_of(label, run.link), grid, cell, layout, first);
    if (placed) {
      room = placed->room;
      canvas.qr(std::move(placed->qr));
    }
    for (const Diagnostic& problem : placed.diagnostics()) {
      warnings.push_back(
          warning(problem.code, "the label of " + id + ": " + problem.message, problem.hint));
    }
  }
  for (std::string& name : draw_label_text(canvas, layout, content, room)) {
    left_out.insert(std::move(name));
  }
}

}  // namespace

Result<Document> labels(const std::vector<LabelFigures>& motors, const LabelRun& run,
                        const FontMetrics& metrics) {
  if (motors.empty()) {
    return error("label-none", "there is no motor to print a label for");
  }
  Diagnostics warnings;
  std::set<std::string> owners;
  std::set<std::string> left_out;
  const auto draw = [&](Canvas& canvas, const LabelGrid& grid, std::size_t index, int cell,
                        Document& document) {
    const LabelFigures& label = motors[index];
    draw_label(canvas, label, grid, cell, run, warnings, left_out);
    const std::string& whose = label.owner.empty() ? label.id.stem : label.owner;
    if (owners.insert(whose).second) {
      document.outline.push_back({.title = whose, .page = document.pages.size() - 1});
    }
  };
  auto document = label_pages(motors.size(), run, metrics, warnings, draw);
  if (!document) {
    return document.diagnostics();
  }
  if (!left_out.empty()) {
    warnings.push_back(note(
        "label-less", fmt::format("the labels have no room for: {}", fmt::join(left_out, "; ")),
        "choose larger labels to have them printed"));
  }
  return {std::move(*document), std::move(warnings)};
}

}  // namespace loopledger::page
