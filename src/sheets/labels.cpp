// SPDX-License-Identifier: MIT
#include "sheets/labels.h"

#include <fmt/format.h>

#include <optional>
#include <set>

#include "sheets/label_face.h"
#include "sheets/label_grid.h"
#include "sheets/label_pages.h"
#include "sheets/label_qr.h"
#include "sheets/label_values.h"
#include "tag/id.h"
#include "tag/qr_fit.h"

namespace loopledger::sheets {
namespace {

std::vector<std::string> tags_of(const motor::LabelFigures& label, const std::string& link) {
  return link.empty() ? tag::tag_texts(label.tag)
                      : std::vector<std::string>{tag::tag_address(link, label.id)};
}

constexpr double kScaleStep = 0.05;
constexpr double kLeastPageScale = 0.5;
constexpr Length kModuleBelow = Length::mm(0.5);  // three pixels of a picture of 150 dpi

struct PlacedCode {
  PlacedQr qr;
  LabelRoom room;
};

/// The code below a first line over the whole width. The line keeps as much of its size as leaves
/// the code one that any reader reads in a picture of 150 dpi, but more than `least`.
std::optional<PlacedCode> code_below(const std::vector<std::string>& texts, const LabelGrid& grid,
                                     int index, const plan::LabelLayout& layout, double least,
                                     Length module) {
  const Rect cell = grid.cell(index);
  const Rect room = grid.room(index);
  for (double scale = 1; scale > least; scale -= kScaleStep) {
    const double first = first_line_height(layout, room.h, scale);
    const Rect low_cell{cell.x, room.y + first, cell.w, cell.y + cell.h - room.y - first};
    const Rect low_room{room.x, room.y + first, room.w, room.h - first};
    auto placed = place_qr(texts, low_cell, low_room, layout.code_share.as_ratio(), grid.dpi);
    if (placed && placed->module >= module.in_mm() - 1e-9) {
      const Rect column{room.x, room.y, placed->text_width, room.h};
      return PlacedCode{std::move(*placed),
                        {.column = column, .first_width = room.w, .first_scale = scale}};
    }
  }
  return std::nullopt;
}

/// The code beside all of the text, or, where the first line would have to shrink more for that,
/// below it.
Result<PlacedCode> placed_code(const std::vector<std::string>& texts, const LabelGrid& grid,
                               int index, const plan::LabelLayout& layout, double first_width) {
  const Rect room = grid.room(index);
  auto beside = place_qr(texts, grid.cell(index), room, layout.code_share.as_ratio(), grid.dpi);
  if (first_width > 0 && (!beside || first_width > beside->text_width)) {
    const double least = beside ? beside->text_width / first_width : kLeastPageScale;
    const Length module =
        beside ? std::min(Length::mm(beside->module), kModuleBelow) : tag::kModuleMin;
    if (auto below = code_below(texts, grid, index, layout, least, module)) {
      return std::move(*below);
    }
  }
  if (!beside) {
    return beside.diagnostics();
  }
  const Rect column{room.x, room.y, beside->text_width, room.h};
  return PlacedCode{std::move(*beside), {.column = column, .first_width = column.w}};
}

/// Encodes and draws it. Empty when done.
Diagnostics draw_code(page::Canvas& canvas, PlacedQr&& placed) {
  auto symbol = tag::make_qr(placed.text);
  if (symbol) {
    canvas.qr({.x = placed.x,
               .y = placed.y,
               .module = placed.module,
               .symbol = std::move(*symbol),
               .text = std::move(placed.text)});
  }
  return symbol.diagnostics();
}

void draw_label(page::Canvas& canvas, const motor::LabelFigures& label, const LabelGrid& grid,
                int cell, const LabelRun& run, Diagnostics& warnings,
                std::set<std::string>& left_out) {
  const std::string id = tag::with_check(label.id);
  canvas.set_place("the label of " + id);
  const LabelContent content = label_content(label, run.units);
  const plan::LabelLayout& layout = content.made ? run.layouts.bag : run.layouts.slip;
  const Rect whole = grid.room(cell);
  LabelRoom room{.column = whole, .first_width = whole.w};
  if (layout.code_share.as_ratio() > 0) {
    const double first = first_line_width(canvas, layout, content, whole.h);
    auto placed = placed_code(tags_of(label, run.link), grid, cell, layout, first);
    Diagnostics problems = placed.diagnostics();
    if (placed) {
      room = placed->room;
      problems = draw_code(canvas, std::move(placed->qr));
    }
    for (const Diagnostic& problem : problems) {
      warnings.push_back(
          warning(problem.code, "the label of " + id + ": " + problem.message, problem.hint));
    }
  }
  for (std::string& name : draw_label_text(canvas, layout, content, room)) {
    left_out.insert(std::move(name));
  }
}

}  // namespace

Result<page::Document> labels(const std::vector<motor::LabelFigures>& motors, const LabelRun& run,
                              const page::FontMetrics& metrics) {
  if (motors.empty()) {
    return error("label-none", "there is no motor to print a label for");
  }
  Diagnostics warnings;
  std::set<std::string> owners;
  std::set<std::string> left_out;
  const auto draw = [&](page::Canvas& canvas, const LabelGrid& grid, std::size_t index, int cell,
                        page::Document& document) {
    const motor::LabelFigures& label = motors[index];
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

}  // namespace loopledger::sheets
