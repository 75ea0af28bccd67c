// SPDX-License-Identifier: MIT
//
// The page model against what a PDF draws.
#include <fmt/format.h>

#include <cmath>

#include "support/pdf_geometry.h"

namespace loopledger::test {
namespace {

constexpr double kGrey = 0.001;

/// Whether the writer draws it at all.
struct IsDrawn {
  bool operator()(const page::Line&) const { return true; }
  bool operator()(const page::Polyline& l) const { return l.points.size() > 1; }
  bool operator()(const page::Box& b) const { return b.fill_grey >= 0 || b.line_width > 0; }
  bool operator()(const page::Text& t) const { return !t.utf8.empty(); }
  bool operator()(const page::Qr&) const { return true; }
};

/// What a thing is not where, or how, it should be.
class Compared {
 public:
  Compared(const Drawn& drawn, const page::FontMetrics& metrics, double mm)
      : drawn_(drawn), metrics_(metrics), mm_(mm) {}

  void operator()(const page::Line& wanted) {
    if (const auto* seen = same_kind<page::Line>()) {
      near("x1", wanted.x1, seen->x1);
      near("y1", wanted.y1, seen->y1);
      near("x2", wanted.x2, seen->x2);
      near("y2", wanted.y2, seen->y2);
      near("line width", wanted.width, seen->width);
      near("grey", wanted.grey, seen->grey, kGrey);
    }
  }
  void operator()(const page::Polyline& wanted) {
    if (const auto* seen = same_kind<page::Polyline>()) {
      is("points", wanted.points.size() == seen->points.size(), "");
      for (std::size_t i = 0; i < std::min(wanted.points.size(), seen->points.size()); ++i) {
        near("x", wanted.points[i].x, seen->points[i].x);
        near("y", wanted.points[i].y, seen->points[i].y);
      }
      near("line width", wanted.width, seen->width);
      near("grey", wanted.grey, seen->grey, kGrey);
    }
  }
  void operator()(const page::Box& wanted) {
    if (const auto* seen = same_kind<page::Box>()) {
      near("left", wanted.x, seen->x);
      near("top", wanted.y, seen->y);
      near("right", wanted.x + wanted.w, seen->x + seen->w);
      near("bottom", wanted.y + wanted.h, seen->y + seen->h);
      near("line width", std::max(wanted.line_width, 0.0), seen->line_width);
      near("fill", wanted.fill_grey < 0 ? -1 : wanted.fill_grey, seen->fill_grey, kGrey);
      if (wanted.line_width > 0) {
        near("grey", wanted.line_grey, seen->line_grey, kGrey);
      }
    }
  }
  void operator()(const page::Text& wanted) {
    if (const auto* seen = same_kind<page::Text>()) {
      const double width = metrics_.width_mm(wanted.utf8, wanted.face, wanted.size_pt);
      const double left = wanted.align == page::Align::left     ? wanted.x
                          : wanted.align == page::Align::centre ? wanted.x - width / 2
                                                                : wanted.x - width;
      near("left", left, seen->x);
      near("right", left + width, drawn_.x2);
      near("baseline", wanted.y, seen->y);
      near("size", wanted.size_pt, seen->size_pt);
      near("grey", wanted.grey, seen->grey, kGrey);
      is("text", wanted.utf8 == seen->utf8, wanted.utf8 + " / " + seen->utf8);
      is("face", wanted.face == seen->face, wanted.utf8);
      is("glyph", !drawn_.blank_glyph, wanted.utf8);
    }
  }
  void operator()(const page::Qr& wanted) {
    if (const auto* seen = same_kind<page::Qr>()) {
      near("left", wanted.x, seen->x);
      near("top", wanted.y, seen->y);
      const int n = wanted.symbol.modules;
      near("right", wanted.x + n * wanted.module, seen->x + n * seen->module);
      is("modules",
         wanted.symbol.modules == seen->symbol.modules && wanted.symbol.dark == seen->symbol.dark,
         wanted.text);
    }
  }

  [[nodiscard]] const std::string& found() const { return found_; }

 private:
  template <class T>
  const T* same_kind() {
    const auto* seen = std::get_if<T>(&drawn_.item);
    is("kind", seen != nullptr, "");
    return seen;
  }
  void near(const char* what, double wanted, double seen, double by = 0) {
    if (!(std::abs(wanted - seen) <= (by > 0 ? by : mm_))) {
      found_ += fmt::format(" {} {} for {}", what, seen, wanted);
    }
  }
  void is(const char* what, bool good, const std::string& which) {
    found_ += good ? "" : fmt::format(" wrong {} {}", what, which);
  }

  const Drawn& drawn_;
  const page::FontMetrics& metrics_;
  double mm_;
  std::string found_;
};

}  // namespace

std::string geometry_differences(const page::Document& wanted, const std::vector<DrawnPage>& drawn,
                                 const page::FontMetrics& metrics, double mm) {
  std::string all;
  if (wanted.pages.size() != drawn.size()) {
    return fmt::format("{} pages for {}", drawn.size(), wanted.pages.size());
  }
  for (std::size_t p = 0; p < drawn.size(); ++p) {
    const page::Page& page = wanted.pages[p];
    if (std::abs(page.width - drawn[p].width) > mm ||
        std::abs(page.height - drawn[p].height) > mm) {
      all += fmt::format("page {} is {} x {}\n", p + 1, drawn[p].width, drawn[p].height);
    }
    std::size_t next = 0;
    for (const page::Item& item : page.items) {
      if (!std::visit(IsDrawn{}, item)) {
        continue;
      }
      if (next == drawn[p].items.size()) {
        return all + fmt::format("page {} ends after {} things\n", p + 1, next);
      }
      Compared compared(drawn[p].items[next++], metrics, mm);
      std::visit(compared, item);
      if (!compared.found().empty()) {
        all += fmt::format("page {}, thing {}:{}\n", p + 1, next, compared.found());
      }
    }
    if (next != drawn[p].items.size()) {
      all += fmt::format("page {} has {} things too many\n", p + 1, drawn[p].items.size() - next);
    }
  }
  return all;
}

}  // namespace loopledger::test
