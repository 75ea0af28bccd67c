// SPDX-License-Identifier: MIT
#include "page/canvas.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <utility>

#include "page/print_text.h"

namespace loopledger::page {
namespace {

constexpr double kLineSpacing = 1.22;  // of the size
constexpr double kCapHeight = 0.73;    // of the size; DejaVu 0.729, Roboto 0.711
constexpr double kPenLine = 0.25;
constexpr std::size_t kPlacesNamed = 5;  // in a warning; of more their number is told

FitRules rules_of(const Style& style) {
  return {.face = style.face,
          .size_pt = style.size_pt,
          .smallest_pt = style.smallest_pt,
          .max_lines = style.max_lines};
}

}  // namespace

double line_height(double size_pt) { return size_pt * kMmPerPoint * kLineSpacing; }
double cap_height(double size_pt) { return size_pt * kMmPerPoint * kCapHeight; }

void Canvas::warn(const std::string& code, const std::string& message, const std::string& hint) {
  const auto [at, is_new] = said_.try_emplace(code + message);
  Said& said = at->second;
  if (is_new) {
    said.index = warnings_.size();
    warnings_.push_back(warning(code, message, hint));
  }
  if (!said.places.insert(place_).second) {
    return;
  }
  if (said.named.size() < kPlacesNamed) {
    said.named.push_back(place_);
  }
  const std::size_t more = said.places.size() - said.named.size();
  warnings_[said.index].message =
      fmt::format("{}{}: {}", fmt::join(said.named, ", "),
                  more > 0 ? fmt::format(" and {} more", more) : "", message);
}

std::string Canvas::for_print(std::string_view utf8, Face face) {
  PrintText made = print_text(utf8, face, metrics_);
  for (const Replaced& replaced : made.replaced) {
    warn(replaced.code, replaced.message, "write it in Latin, Greek or Cyrillic letters");
  }
  return std::move(made.utf8);
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
    warn("page-cut",
         fmt::format("“{}” is too long and was cut to “{}”", printed, fmt::join(text.lines, " ")),
         "shorten it in the plan");
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

std::vector<std::string> Canvas::lines_of(double width, std::string_view utf8, const Style& style) {
  return wrap(for_print(utf8, style.face), width, style.face, style.size_pt, metrics_);
}

double Canvas::height_of(double width, std::string_view utf8, const Style& style) {
  const FittedText text =
      fit_text(print_text(utf8, style.face, metrics_).utf8, width, rules_of(style), metrics_);
  return static_cast<double>(text.lines.size()) * line_height(text.size_pt);
}

double Canvas::width_of(std::string_view utf8, const Style& style) {
  return metrics_.width_mm(print_text(utf8, style.face, metrics_).utf8, style.face, style.size_pt);
}

}  // namespace loopledger::page
