// SPDX-License-Identifier: MIT
#include "page/sheet_id.h"

#include <algorithm>

#include "tag/id.h"

namespace loopledger::page {
namespace {

/// "ABCDEFGH-", "9999-K"
std::pair<std::string, std::string> id_halves(const MotorId& id) {
  const std::string text = tag::with_check(id);
  const std::size_t end = std::min(text.find('-') + 1, text.size());
  return {text.substr(0, end), text.substr(end)};
}

Style smallest(Style style) {
  style.size_pt = style.smallest_pt;
  return style;
}

}  // namespace

void draw_id(Canvas& canvas, const Box& box, const MotorId& id, const Style& style) {
  const std::string text = tag::with_check(id);
  if (canvas.width_of(text, smallest(style)) <= box.w) {
    canvas.fit_in(box, text, style);
    return;
  }
  const auto [stem, number] = id_halves(id);
  // A stem of eight wide letters shrinks rather than breaks: a broken id is read as another.
  Style half = smallest(style);
  half.smallest_pt = 6;
  const double line = line_height(half.size_pt);
  const double above = (box.h - line - cap_height(half.size_pt)) / 2;
  canvas.fit(box.x, box.y + above, box.w, stem, half);
  canvas.fit(box.x, box.y + above + line, box.w, number, half);
}

double least_id_width(Canvas& canvas, const MotorId& id, const Style& style) {
  const auto [stem, number] = id_halves(id);
  return std::max(canvas.width_of(stem, smallest(style)), canvas.width_of(number, smallest(style)));
}

}  // namespace loopledger::page
