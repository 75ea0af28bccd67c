// SPDX-License-Identifier: MIT
#include "page/ruler.h"

#include <cmath>
#include <string>

namespace loopledger::page {
namespace {

constexpr double kBar = 100;
constexpr double kInch = 25.4;

/// Ticks of one scale; `per_mark` steps make a numbered mark, `half` the step of middle ticks.
void draw_scale(Canvas& canvas, double x, double y, int marks, double mark_mm, int per_mark) {
  for (int i = 0; i <= marks * per_mark; ++i) {
    const double at = x + i * mark_mm / per_mark;
    const bool whole = i % per_mark == 0;
    const bool half = i % (per_mark / 2) == 0;
    const double height = whole ? 4.5 : half ? 3.2 : 2.0;
    canvas.line(at, y, at, y + height, whole ? 0.25 : 0.15);
    if (whole) {
      canvas.text(at, y + 7.2, std::to_string(mark_mm == kInch ? i / per_mark : i),
                  {.size_pt = 8, .align = Align::centre});
    }
  }
}

}  // namespace

void draw_check_bar(Canvas& canvas, double x, double y) {
  canvas.line(x, y, x + kBar, y, 0.3);
  for (int i = 0; i <= 10; ++i) {
    const double at = x + i * kBar / 10;
    const bool end = i == 0 || i == 10;
    canvas.line(at, y, at, y - (end ? 3 : 1.5), end ? 0.3 : 0.2);
  }
  canvas.text(x + kBar + 3, y, "100 mm: measure it; if not, print at 100 %", {.size_pt = 6.5});
}

void draw_check_ruler(Canvas& canvas, double x, double y, Units units) {
  const bool inch = units == Units::inch;
  const double step = inch ? kInch / 16 : 1.0;
  const int per_mark = inch ? 16 : 10;
  canvas.line(x, y, x + kBar, y, 0.3);
  for (int i = 0; i * step <= kBar + 1e-9; ++i) {
    const bool mark = i % per_mark == 0;
    const double height = mark ? 3.2 : i % (per_mark / 2) == 0 ? 2.4 : 1.6;
    canvas.line(x + i * step, y, x + i * step, y - height, mark ? 0.25 : 0.15);
    if (mark) {
      canvas.text(x + i * step, y + 2.9, std::to_string(inch ? i / per_mark : i),
                  {.size_pt = 8, .align = Align::centre});
    }
  }
  if (inch) {  // where the 100 mm end
    canvas.line(x + kBar, y, x + kBar, y + 3, 0.3);
  }
  canvas.text(x + kBar + 4, y - 1, "check: 100 mm long;", {.size_pt = 8});
  canvas.text(x + kBar + 4, y + 2.9, "if not, print at 100 %", {.size_pt = 8});
}

double draw_ruler(Canvas& canvas, double x, double y, double width, Units units) {
  const double mark = units == Units::inch ? kInch : 10.0;
  const int marks = static_cast<int>(std::floor((width - 2) / mark + 1e-9));
  canvas.line(x, y, x + marks * mark, y, 0.25);
  draw_scale(canvas, x, y, marks, mark, units == Units::inch ? 16 : 10);
  return 8;
}

}  // namespace loopledger::page
