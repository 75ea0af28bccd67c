// SPDX-License-Identifier: MIT
#include "pdf/check_document.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <variant>

#include "base/letters.h"
#include "base/text.h"
#include "pdf/font_file.h"

namespace loopledger::pdf {
namespace {

constexpr std::size_t kMostFaces = 2;
constexpr std::size_t kLongestText = 8000;  // bytes; the library's own limit is 65535
constexpr double kFarthest = 5000;          // mm; a PDF's page is at most 5080 mm wide

bool is_near(std::initializer_list<double> numbers) {
  return std::all_of(numbers.begin(), numbers.end(),
                     [](double n) { return std::isfinite(n) && std::abs(n) <= kFarthest; });
}

struct IsPlaced {
  bool operator()(const page::Line& l) const {
    return is_near({l.x1, l.y1, l.x2, l.y2, l.width, l.grey});
  }
  bool operator()(const page::Polyline& l) const {
    return is_near({l.width, l.grey}) &&
           std::all_of(l.points.begin(), l.points.end(), [](const page::Polyline::Point& p) {
             return is_near({p.x, p.y});
           });
  }
  bool operator()(const page::Box& b) const {
    return is_near({b.x, b.y, b.w, b.h, b.line_width, b.line_grey, b.fill_grey});
  }
  bool operator()(const page::Text& t) const { return is_near({t.x, t.y, t.size_pt, t.grey}); }
  bool operator()(const page::Qr& q) const { return is_near({q.x, q.y, q.module}); }
};

/// Why a text can't be drawn, or empty.
std::string trouble_with(const std::string& utf8) {
  if (utf8.size() > kLongestText) {
    return fmt::format("is {} bytes long", utf8.size());
  }
  if (first_bad_utf8(utf8)) {
    return "is no UTF-8";
  }
  for (const char32_t c : code_points(utf8)) {
    if (c > 0xFFFF || is_control_code(c)) {
      return fmt::format("has the character U+{:04X}", static_cast<unsigned>(c));
    }
  }
  return {};
}

}  // namespace

Diagnostics check_document(const page::Document& document, const Fonts& fonts) {
  Diagnostics problems;
  std::set<page::Face> faces;
  for (std::size_t p = 0; p < document.pages.size(); ++p) {
    for (const page::Item& item : document.pages[p].items) {
      if (!std::visit(IsPlaced{}, item)) {
        problems.push_back(error(
            "pdf-place", fmt::format("something on page {} is placed where no page is", p + 1)));
      }
      const auto* text = std::get_if<page::Text>(&item);
      if (text == nullptr) {
        continue;
      }
      faces.insert(text->face);
      if (const std::string trouble = trouble_with(text->utf8); !trouble.empty()) {
        problems.push_back(error("pdf-text", fmt::format("a text on page {} {}", p + 1, trouble)));
      }
    }
  }
  if (faces.size() > kMostFaces) {
    problems.push_back(error(
        "pdf-faces",
        fmt::format("a document uses at most {} font faces, found {}", kMostFaces, faces.size())));
  }
  for (const page::Face face : faces) {
    append(problems, font_problems(fonts.of(face)));
  }
  if (document.pages.empty()) {
    problems.push_back(error("pdf-empty", "a document needs at least one page"));
  }
  for (const page::Bookmark& mark : document.outline) {
    if (mark.page >= document.pages.size()) {
      problems.push_back(
          error("pdf-outline", fmt::format("the bookmark “{}” leads to page {} of {}", mark.title,
                                           mark.page + 1, document.pages.size())));
    }
  }
  return problems;
}

}  // namespace loopledger::pdf
