// SPDX-License-Identifier: MIT
#include "page/canvas.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <utility>

#include "base/text.h"

namespace loopledger::page {
namespace {

constexpr double kLineSpacing = 1.22;  // of the size
constexpr double kCapHeight = 0.73;    // of the size; DejaVu 0.729, Roboto 0.711
constexpr double kPenLine = 0.25;

bool is_control(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || (c >= 0x200B && c <= 0x200F) ||
         (c >= 0x2028 && c <= 0x202E) || (c >= 0x2060 && c <= 0x206F) || c == 0xFEFF;
}

FitRules rules_of(const Style& style) {
  return {.face = style.face,
          .size_pt = style.size_pt,
          .smallest_pt = style.smallest_pt,
          .max_lines = style.max_lines};
}

}  // namespace

double line_height(double size_pt) { return size_pt * kMmPerPoint * kLineSpacing; }
double cap_height(double size_pt) { return size_pt * kMmPerPoint * kCapHeight; }

void Canvas::warn_once(const std::string& about, Diagnostic warning) {
  if (said_.insert(warning.code + about).second) {
    warnings_.push_back(std::move(warning));
  }
}

std::string Canvas::for_print(std::string_view utf8, Face face) {
  if (std::all_of(utf8.begin(), utf8.end(), [](char c) { return c >= ' ' && c < 0x7F; })) {
    return std::string(utf8);
  }
  std::vector<char32_t> points = code_points(utf8);
  for (char32_t& c : points) {
    if (is_control(c)) {
      c = U' ';
    } else if (!metrics_.has(c, face)) {
      warn_once(
          to_utf8(std::span(&c, 1)) + std::string(utf8),
          warning("page-glyph",
                  fmt::format("{}: the fonts can't show “{}” (U+{:04X}), “?” is printed instead",
                              place_, to_utf8(std::span(&c, 1)), static_cast<unsigned>(c)),
                  "write it in Latin, Greek or Cyrillic letters"));
      c = U'?';
    }
  }
  return to_utf8(points);
}

void Canvas::line(double x1, double y1, double x2, double y2, double width, double grey) {
  assert(page_ != nullptr);
  page_->items.emplace_back(
      Line{.x1 = x1, .y1 = y1, .x2 = x2, .y2 = y2, .width = width, .grey = grey});
}

void Canvas::polyline(std::vector<Polyline::Point> points, double width, double grey) {
  assert(page_ != nullptr && points.size() > 1);
  page_->items.emplace_back(Polyline{.points = std::move(points), .width = width, .grey = grey});
}

void Canvas::box(const Box& box) {
  assert(page_ != nullptr);
  page_->items.emplace_back(box);
}

void Canvas::tick_box(double x, double y, double side) {
  box({.x = x, .y = y - side, .w = side, .h = side, .line_width = 0.3});
}

void Canvas::blank(double x, double y, double width) { line(x, y, x + width, y, kPenLine, 0); }

void Canvas::qr(Qr symbol) {
  assert(page_ != nullptr);
  page_->items.emplace_back(std::move(symbol));
}

double Canvas::text(double x, double y, std::string_view utf8, const Style& style) {
  assert(page_ != nullptr);
  std::string printed = for_print(utf8, style.face);
  const double width = metrics_.width_mm(printed, style.face, style.size_pt);
  page_->items.emplace_back(Text{.x = x,
                                 .y = y,
                                 .size_pt = style.size_pt,
                                 .face = style.face,
                                 .align = style.align,
                                 .utf8 = std::move(printed),
                                 .grey = style.grey});
  return width;
}

FittedText Canvas::fitted(const std::string& printed, double width, const Style& style) {
  FittedText text = fit_text(printed, width, rules_of(style), metrics_);
  if (text.cut) {
    warn_once(printed, warning("page-cut",
                               fmt::format("{}: “{}” is too long and was cut to “{}”", place_,
                                           printed, fmt::join(text.lines, " ")),
                               "shorten it in the plan"));
  }
  return text;
}

double Canvas::set_lines(double x, double y, double width, const FittedText& fitted,
                         const Style& style) {
  const double anchor = style.align == Align::left     ? x
                        : style.align == Align::centre ? x + width / 2
                                                       : x + width;
  Style at = style;
  at.size_pt = fitted.size_pt;
  double top = y;
  for (const std::string& line : fitted.lines) {
    if (!line.empty()) {
      text(anchor, top + cap_height(at.size_pt), line, at);
    }
    top += line_height(at.size_pt);
  }
  return top - y;
}

double Canvas::fit(double x, double y, double width, std::string_view utf8, const Style& style) {
  return set_lines(x, y, width, fitted(for_print(utf8, style.face), width, style), style);
}

void Canvas::fit_in(const Box& box, std::string_view utf8, const Style& style) {
  const FittedText text = fitted(for_print(utf8, style.face), box.w, style);
  const double height = static_cast<double>(text.lines.size() - 1) * line_height(text.size_pt) +
                        cap_height(text.size_pt);
  set_lines(box.x, box.y + (box.h - height) / 2, box.w, text, style);
}

double Canvas::height_of(double width, std::string_view utf8, const Style& style) {
  const FittedText text = fit_text(for_print(utf8, style.face), width, rules_of(style), metrics_);
  return static_cast<double>(text.lines.size()) * line_height(text.size_pt);
}

double Canvas::width_of(std::string_view utf8, const Style& style) {
  return metrics_.width_mm(for_print(utf8, style.face), style.face, style.size_pt);
}

}  // namespace loopledger::page
