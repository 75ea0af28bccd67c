// SPDX-License-Identifier: MIT
#include "support/page_check.h"

#include <algorithm>
#include <optional>

#include "page/canvas.h"

namespace loopledger::test {
namespace {

constexpr double kDescent = 0.2;  // of the size
constexpr double kTailOfQ = 0.08;
constexpr double kHair = 0.05;  // mm

/// Capitals and digits stand on the baseline; of all else some letter may reach below it.
double descent_of(const std::string& utf8) {
  const bool on_baseline = std::all_of(utf8.begin(), utf8.end(), [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == ' ';
  });
  return !on_baseline ? kDescent : utf8.find('Q') != std::string::npos ? kTailOfQ : 0;
}

Extent extent_of(const page::Text& text, const page::FontMetrics& metrics) {
  const double width = metrics.width_mm(text.utf8, text.face, text.size_pt);
  const double left = text.align == page::Align::left     ? text.x
                      : text.align == page::Align::centre ? text.x - width / 2
                                                          : text.x - width;
  return {left, text.y - page::cap_height(text.size_pt), left + width,
          text.y + descent_of(text.utf8) * text.size_pt * 25.4 / 72, text.utf8};
}

struct Measure {
  const page::FontMetrics& metrics;
  Extent operator()(const page::Line& l) const {
    return {std::min(l.x1, l.x2), std::min(l.y1, l.y2), std::max(l.x1, l.x2), std::max(l.y1, l.y2),
            "line"};
  }
  Extent operator()(const page::Polyline& l) const {
    Extent all{1e9, 1e9, -1e9, -1e9, "polyline"};
    for (const page::Polyline::Point& p : l.points) {
      all.x1 = std::min(all.x1, p.x);
      all.y1 = std::min(all.y1, p.y);
      all.x2 = std::max(all.x2, p.x);
      all.y2 = std::max(all.y2, p.y);
    }
    return all;
  }
  Extent operator()(const page::Box& b) const { return {b.x, b.y, b.x + b.w, b.y + b.h, "box"}; }
  Extent operator()(const page::Text& t) const { return extent_of(t, metrics); }
  Extent operator()(const page::Qr& q) const {
    const double side = q.module * q.symbol.modules;
    return {q.x, q.y, q.x + side, q.y + side, "qr " + q.text};
  }
};

std::string describe(const Extent& e) {
  return "\"" + e.what + "\" at " + std::to_string(e.x1) + " " + std::to_string(e.y1) + " to " +
         std::to_string(e.x2) + " " + std::to_string(e.y2);
}

}  // namespace

std::vector<Extent> extents(const page::Page& page, const page::FontMetrics& metrics) {
  std::vector<Extent> all;
  for (const page::Item& item : page.items) {
    all.push_back(std::visit(Measure{metrics}, item));
  }
  return all;
}

std::vector<Extent> text_extents(const page::Page& page, const page::FontMetrics& metrics) {
  std::vector<Extent> all;
  for (const page::Item& item : page.items) {
    if (const auto* text = std::get_if<page::Text>(&item)) {
      all.push_back(extent_of(*text, metrics));
    }
  }
  return all;
}

bool overlap(const Extent& a, const Extent& b) {
  return std::min(a.x2, b.x2) - std::max(a.x1, b.x1) > kHair &&
         std::min(a.y2, b.y2) - std::max(a.y1, b.y1) > kHair;
}

std::string out_of_margin(const page::Document& document, const page::FontMetrics& metrics,
                          double margin) {
  std::string found;
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    const page::Page& page = document.pages[i];
    for (const Extent& e : extents(page, metrics)) {
      if (e.x1 < margin - kHair || e.y1 < margin - kHair || e.x2 > page.width - margin + kHair ||
          e.y2 > page.height - margin + kHair) {
        found += "page " + std::to_string(i + 1) + ": " + describe(e) + "\n";
      }
    }
  }
  return found;
}

std::string overlapping_texts(const page::Document& document, const page::FontMetrics& metrics) {
  std::string found;
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    const std::vector<Extent> all = text_extents(document.pages[i], metrics);
    for (std::size_t a = 0; a < all.size(); ++a) {
      for (std::size_t b = a + 1; b < all.size(); ++b) {
        if (overlap(all[a], all[b])) {
          found += "page " + std::to_string(i + 1) + ": " + describe(all[a]) + " and " +
                   describe(all[b]) + "\n";
        }
      }
    }
  }
  return found;
}

std::string texts_out_of_boxes(const page::Document& document, const page::FontMetrics& metrics) {
  std::string found;
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    const page::Page& page = document.pages[i];
    for (const Extent& text : text_extents(page, metrics)) {
      const double x = (text.x1 + text.x2) / 2;
      const double y = (text.y1 + text.y2) / 2;
      for (const page::Item& item : page.items) {
        const auto* box = std::get_if<page::Box>(&item);
        if (box == nullptr || x < box->x || x > box->x + box->w || y < box->y ||
            y > box->y + box->h) {
          continue;
        }
        if (text.x1 < box->x - kHair || text.x2 > box->x + box->w + kHair ||
            text.y1 < box->y - kHair || text.y2 > box->y + box->h + kHair) {
          found += "page " + std::to_string(i + 1) + ": " + describe(text) + "\n";
        }
      }
    }
  }
  return found;
}

double size_of_line(const page::Document& document, const std::string& line) {
  for (const page::Page& page : document.pages) {
    for (const page::Item& item : page.items) {
      if (const auto* text = std::get_if<page::Text>(&item); text && text->utf8 == line) {
        return text->size_pt;
      }
    }
  }
  return 0;
}

std::string all_text(const page::Document& document) {
  std::string text;
  for (const page::Page& page : document.pages) {
    for (const page::Item& item : page.items) {
      if (const auto* found = std::get_if<page::Text>(&item)) {
        text += found->utf8 + "\n";
      }
    }
  }
  return text;
}

}  // namespace loopledger::test
