// SPDX-License-Identifier: MIT
//
// A printed document as data: pages of boxes, lines, curves, text and QR cells in millimetres from
// the top left corner of the paper. page/ makes it from the figures, pdf/ turns it into bytes, and
// tests read it as text. At most two font faces per document.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/date.h"
#include "tag/qr.h"

namespace loopledger::page {

/// Sheets use DejaVu Sans Condensed, labels Roboto Condensed; see fonts/.
enum class Face { sheet, sheet_bold, label, label_bold };

/// All measures in this header are millimetres, font sizes points; grey 0 is black, 1 white.
struct Line {
  double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
  double width = 0.2;
  double grey = 0;
};

/// Straight from point to point, joined round: a drawn curve.
struct Polyline {
  struct Point {
    double x = 0, y = 0;
  };
  std::vector<Point> points;  ///< at least two
  double width = 0.2;
  double grey = 0;
};

struct Box {
  double x = 0, y = 0, w = 0, h = 0;
  double line_width = 0.2;  ///< 0: no outline
  double line_grey = 0;
  double fill_grey = -1;  ///< negative: not filled
};

enum class Align { left, centre, right };

/// One line of text. `x` is its left end, centre or right end by `align`; `y` its baseline.
struct Text {
  double x = 0, y = 0;
  double size_pt = 10;
  Face face = Face::sheet;
  Align align = Align::left;
  std::string utf8;
  double grey = 0;
};

/// A QR symbol; x, y is the corner of its first module, the quiet zone lies outside.
struct Qr {
  double x = 0, y = 0;
  double module = 0.5;
  tag::QrSymbol symbol;
  std::string text;  ///< what it says, for tests and for the page model's text
};

using Item = std::variant<Line, Polyline, Box, Text, Qr>;

struct Page {
  double width = 210, height = 297;
  std::vector<Item> items;
};

struct Bookmark {
  std::string title;
  std::size_t page = 0;
};

/// Applied to every page when it is drawn: x' = sx x + dx, y' = sy y + dy, in mm from the top left
/// corner. It makes up for a printer that misses; the pages themselves stay as they are.
struct PrintCorrection {
  double dx = 0, dy = 0;
  double sx = 1, sy = 1;
  friend bool operator==(const PrintCorrection&, const PrintCorrection&) = default;
};

struct Document {
  std::string title;
  std::string language = "en";
  std::optional<Moment> created;  ///< the file's creation date; none: the file has no date
  std::vector<Page> pages;
  std::vector<Bookmark> outline;
  PrintCorrection correction;
};

/// What layout needs to know of the fonts. pdf/ has the real one; tests may use a fake.
class FontMetrics {
 public:
  FontMetrics() = default;
  FontMetrics(const FontMetrics&) = delete;
  FontMetrics& operator=(const FontMetrics&) = delete;
  virtual ~FontMetrics() = default;
  /// Width in mm of one line of well-formed UTF-8; sum of advances, no kerning.
  [[nodiscard]] virtual double width_mm(const std::string& utf8, Face face,
                                        double size_pt) const = 0;
  /// Whether the face has a glyph for the code point.
  [[nodiscard]] virtual bool has(char32_t code_point, Face face) const = 0;
};

}  // namespace loopledger::page
