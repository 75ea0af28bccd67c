// SPDX-License-Identifier: MIT
#include "sheets/test_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "page/canvas.h"
#include "sheets/label_grid.h"

namespace loopledger::sheets {
namespace {

constexpr std::array kBars{100.0, 50.0, 20.0, 10.0};
constexpr double kBarFromEdge = 7;
constexpr double kCheckBarHeight = 3;
constexpr double kCross = 2.5;      // half an arm
constexpr double kSmallNumber = 7;  // points
constexpr double kNoteWidth = 150;
constexpr double kNoteHeight = 57;
constexpr double kNoteFrom = 190;  // mm of paper, both ways

/// A white box with the bar's ticks each 10 mm, so that what lies below does not blur them.
void draw_bar(page::Canvas& canvas, double x, double y, double length, bool across) {
  const auto line = [&](double from, double to, double at1, double at2) {
    if (across) {
      canvas.line(x + from, y + at1, x + to, y + at2, 0.2);
    } else {
      canvas.line(x + at1, y + from, x + at2, y + to, 0.2);
    }
  };
  canvas.box({.x = across ? x - 1 : x - 0.5,
              .y = across ? y - 0.5 : y - 1,
              .w = across ? length + 2 : kCheckBarHeight + 1,
              .h = across ? kCheckBarHeight + 1 : length + 2,
              .line_width = 0,
              .fill_grey = 1});
  line(0, length, kCheckBarHeight, kCheckBarHeight);
  const double step = length > 20 ? 10 : length / 2;
  for (double at = 0; at <= length + 1e-9; at += step) {
    const bool end = at == 0 || at > length - 1e-9;
    line(at, at, end ? 0 : kCheckBarHeight * 0.5, kCheckBarHeight);
  }
}

/// What a bar measures, beside its end.
void draw_bars(page::Canvas& canvas, const LabelGrid& grid) {
  for (const bool across : {true, false}) {
    const double paper = across ? grid.paper_width : grid.paper_height;
    const auto fits = std::ranges::find_if(
        kBars, [&](double bar) { return bar + 2 * (kBarFromEdge + kCheckBarHeight + 2) <= paper; });
    if (fits == kBars.end()) {
      continue;
    }
    const double x = across ? kBarFromEdge : grid.paper_width - kBarFromEdge - kCheckBarHeight;
    const double y = across ? grid.paper_height - kBarFromEdge - kCheckBarHeight : kBarFromEdge;
    draw_bar(canvas, x, y, *fits, across);
    const page::Style style{.size_pt = kSmallNumber, .face = page::Face::sheet};
    const std::string text = fmt::format("{:.0f} mm", *fits);
    const double w = canvas.width_of(text, style);
    const double text_x = across ? x + *fits + 2 : grid.paper_width - kPaperEdge - w;
    const double text_y = across ? y + kCheckBarHeight : y + *fits + 4;
    canvas.box({.x = text_x - 0.5,
                .y = text_y - page::cap_height(kSmallNumber) - 0.5,
                .w = w + 1,
                .h = page::cap_height(kSmallNumber) + 1,
                .line_width = 0,
                .fill_grey = 1});
    canvas.text(text_x, text_y, text, style);
  }
}

/// The label's outline, a cross in its middle, and the number that --start knows it by.
void draw_cell(page::Canvas& canvas, const LabelGrid& grid, int index) {
  const Rect cell = grid.cell(index);
  canvas.box({.x = cell.x, .y = cell.y, .w = cell.w, .h = cell.h, .line_width = 0.15});
  const double x = cell.x + cell.w / 2;
  const double y = cell.y + cell.h / 2;
  canvas.line(x - kCross, y, x + kCross, y, 0.15);
  canvas.line(x, y - kCross, x, y + kCross, 0.15);
  const Rect room = grid.room(index);
  const double size = std::clamp(room.h * 0.6, kSmallNumber, 14.0);
  canvas.text(room.x, room.y + page::cap_height(size), std::to_string(index + 1),
              {.size_pt = size, .face = page::Face::sheet_bold});
}

void draw_note(page::Canvas& canvas, const TestPage& wanted) {
  const Rect at{(wanted.stock.paper_width.in_mm() - kNoteWidth) / 2,
                (wanted.stock.paper_height.in_mm() - kNoteHeight) / 2, kNoteWidth, kNoteHeight};
  canvas.box({.x = at.x, .y = at.y, .w = at.w, .h = at.h, .line_width = 0.4, .fill_grey = 1});
  double y = at.y + 3;
  const auto say = [&](const std::string& text, double size, page::Face face = page::Face::sheet) {
    y += canvas.fit(at.x + 4, y, at.w - 8, text,
                    {.size_pt = size, .face = face, .smallest_pt = size, .max_lines = 6});
    y += 1.6;
  };
  say("TEST PAGE: " + wanted.stock.text, 12, page::Face::sheet_bold);
  say("1  Print it on plain paper, in full size (no \"fit to page\"). Measure both bars of 100 mm.",
      10);
  say("2  Lay it over a sheet of the labels, edges together, against the light. How far right and "
      "how far down of the labels do the outlines stand? Left and up are minus.",
      10);
  say(fmt::format("3  Write what you measured into {}:", wanted.printer_file), 10);
  say(fmt::format("[stock.\"{}\"]", wanted.stock.name), 10, page::Face::sheet_bold);
  say("shift = [\"0.6 mm\", \"-0.3 mm\"]     bars = [\"99.6 mm\", \"100.2 mm\"]", 10,
      page::Face::sheet_bold);
  say(wanted.corrected.empty()
          ? "Nothing is corrected on this page."
          : fmt::format("This page is corrected already: {}. Add what you still measure.",
                        wanted.corrected),
      10);
}

}  // namespace

Result<page::Document> test_page(const TestPage& wanted, const page::FontMetrics& metrics) {
  const Result<LabelGrid> grid = label_grid(wanted.stock);
  if (!grid) {
    return grid.diagnostics();
  }
  page::Document document;
  document.title = "Test page: " + wanted.stock.text;
  document.created = wanted.created;
  document.pages.push_back({.width = grid->paper_width, .height = grid->paper_height, .items = {}});
  Diagnostics warnings;
  page::Canvas canvas(metrics, warnings);
  canvas.turn_to(document.pages.back());
  canvas.set_place("the test page");
  for (int index = 0; index < grid->per_sheet(); ++index) {
    draw_cell(canvas, *grid, index);
  }
  draw_bars(canvas, *grid);
  if (std::min(grid->paper_width, grid->paper_height) >= kNoteFrom) {
    draw_note(canvas, wanted);
  }
  return {std::move(document), std::move(warnings)};
}

}  // namespace loopledger::sheets
