// SPDX-License-Identifier: MIT
#include "page/remnant_labels.h"

#include <fmt/format.h>

#include <algorithm>

#include "page/label_pages.h"

namespace loopledger::page {
namespace {

constexpr double kSmallest = 5.5;  // points

std::string width_text(Length width, Units units) {
  return units == Units::inch ? fixed(width.in_in(), 3) + " in" : rounded(width.in_mm(), 3) + " mm";
}

/// "303 mm (11.93 in)": both, so that either ruler will do.
std::string length_text(Length left, Units units) {
  const Units other = units == Units::inch ? Units::metric : Units::inch;
  return fmt::format("{} ({})", shown(left, units), shown(left, other));
}

void draw_remnant(Canvas& canvas, const RemnantFigures& remnant, const Rect& room, Units units) {
  canvas.set_place(fmt::format("the label of piece {} of {}", remnant.tag, remnant.strip));
  // Three rows share the height as 4 : 4 : 3, whatever the stock.
  const double row = room.h / 11;
  const double large = std::clamp(row * 4 * 1.7, 9.0, 22.0);
  const double small = std::clamp(row * 3 * 1.2, 6.0, 10.0);
  std::string make = remnant.strip;
  make += remnant.width ? " · " + width_text(*remnant.width, units) : "";
  make += remnant.lot.empty() ? "" : " · lot " + remnant.lot;
  make += remnant.date ? " · " + iso(*remnant.date) : "";
  const Style bold{.size_pt = large, .face = Face::label_bold, .smallest_pt = kSmallest};
  canvas.fit(room.x, room.y, room.w, "piece " + remnant.tag, bold);
  canvas.fit(room.x, room.y + row * 4, room.w, length_text(remnant.left, units), bold);
  canvas.fit(room.x, room.y + row * 8, room.w, make,
             {.size_pt = small, .face = Face::label, .smallest_pt = kSmallest});
}

}  // namespace

Result<Document> remnant_labels(const std::vector<RemnantFigures>& remnants, const LabelRun& run,
                                const FontMetrics& metrics) {
  if (remnants.empty()) {
    return error("label-none", "no remnant is kept: there is nothing to label");
  }
  Diagnostics warnings;
  auto document = label_pages(
      remnants.size(), run, metrics, warnings,
      [&](Canvas& canvas, const LabelGrid& grid, std::size_t index, int cell, Document&) {
        draw_remnant(canvas, remnants[index], grid.room(cell), run.units);
      });
  if (!document) {
    return document.diagnostics();
  }
  return {std::move(*document), std::move(warnings)};
}

}  // namespace loopledger::page
