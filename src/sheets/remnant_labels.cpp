// SPDX-License-Identifier: MIT
#include "sheets/remnant_labels.h"

#include <fmt/format.h>

#include "sheets/figures_text.h"
#include "sheets/label_face.h"
#include "sheets/label_pages.h"
#include "sheets/label_values.h"

namespace loopledger::sheets {
namespace {

LabelContent content_of(const RemnantFigures& remnant, Units units) {
  LabelContent content;
  LabelValues& values = content.values;
  values["piece"] = remnant.tag;
  values["strip"] = remnant.strip;
  values["width"] = remnant.width ? shown_width(*remnant.width, units) : "";
  values["lot"] = remnant.lot;
  values["left"] = shown(remnant.left, units);
  values["left_other"] = shown(remnant.left, other(units));
  values["date"] = remnant.date ? iso(*remnant.date) : "";
  return content;
}

}  // namespace

Result<page::Document> remnant_labels(const std::vector<RemnantFigures>& remnants,
                                      const LabelRun& run, const page::FontMetrics& metrics) {
  if (remnants.empty()) {
    return error("label-none", "no remnant is kept: there is nothing to label");
  }
  Diagnostics warnings;
  const auto draw = [&](page::Canvas& canvas, const LabelGrid& grid, std::size_t index, int cell,
                        page::Document&) {
    const RemnantFigures& remnant = remnants[index];
    canvas.set_place(fmt::format("the label of piece {} of {}", remnant.tag, remnant.strip));
    const Rect room = grid.room(cell);
    (void)draw_label_text(canvas, run.layouts.remnant, content_of(remnant, run.units),
                          {.column = room, .first_width = room.w});
  };
  auto document = label_pages(remnants.size(), run, metrics, warnings, draw);
  if (!document) {
    return document.diagnostics();
  }
  return {std::move(*document), std::move(warnings)};
}

}  // namespace loopledger::sheets
