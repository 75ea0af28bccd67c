// SPDX-License-Identifier: MIT
#include "page/labels.h"

#include <fmt/format.h>

#include <set>

#include "page/label_face.h"
#include "page/label_grid.h"
#include "page/label_pages.h"
#include "page/label_qr.h"
#include "tag/id.h"

namespace loopledger::page {
namespace {

std::vector<std::string> tags_of(const LabelFigures& label, const std::string& link) {
  return link.empty() ? tag::tag_texts(label.tag)
                      : std::vector<std::string>{tag::tag_address(link, label.id)};
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
