// SPDX-License-Identifier: MIT
//
// How much to snip off for so many milligrams over: a strip that stands above the table, so that
// nobody divides with wet hands.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "calc/weigh.h"
#include "page/cut_sections.h"
#include "page/figures_text.h"

namespace loopledger::page {
namespace {

constexpr std::array kOver{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30};
constexpr double kHeight = 12;

/// What scissors can do: to 0.1 mm below 1 mm, else to 0.5 mm; to 0.01 in.
std::string snip(Length length, Units units) {
  const double value = units == Units::inch ? length.in_in() : length.in_mm();
  const double step = units == Units::inch ? 0.01 : value < 1 ? 0.1 : 0.5;
  return rounded(std::round(value / step) * step, 4);
}

}  // namespace

void draw_trimming(Sheet& sheet, const Kind& kind, Units units) {
  const records::Planned& p = *kind.planned;
  Canvas& canvas = sheet.canvas();
  sheet.room(kHeight + 1.5);
  const double y = sheet.y();
  const double label = 34;
  // A coarse scale can't read 1 mg over: the table then goes in its steps.
  const Mass step = std::max(p.scale_step, Mass::mg(1));
  const double cell = (sheet.width() - label) / static_cast<double>(kOver.size());
  canvas.box({.x = sheet.x(), .y = y, .w = sheet.width(), .h = kHeight - 1.5, .line_width = 0.3});
  canvas.fit(sheet.x() + 1.5, y + 1.6, label - 3, "mg over", {.size_pt = 10});
  canvas.fit(sheet.x() + 1.5, y + 6.2, label - 3,
             fmt::format("snip {} of {}", unit_name(units), p.strip),
             {.size_pt = 9, .face = Face::sheet_bold, .smallest_pt = 6});
  for (std::size_t i = 0; i < kOver.size(); ++i) {
    const double x = sheet.x() + label + static_cast<double>(i) * cell;
    canvas.line(x, y, x, y + kHeight - 1.5, 0.15, 0.5);
    canvas.fit(x, y + 1.6, cell, rounded((step * kOver[i]).in_mg(), 4),
               {.size_pt = 10, .align = Align::centre});
    canvas.fit(x + 0.3, y + 6, cell - 0.6,
               snip(calc::snip_for(p, Stage::washed, step * kOver[i]), units),
               {.size_pt = 11, .face = Face::sheet_bold, .align = Align::centre, .smallest_pt = 7});
  }
  sheet.down(kHeight);
}

}  // namespace loopledger::page
