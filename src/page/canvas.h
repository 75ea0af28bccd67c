// SPDX-License-Identifier: MIT
//
// Drawing on one page: what every layout here needs to put boxes, lines and fitted text into a
// Page, and the one place where text is made fit for the fonts. What had to be cut or replaced
// becomes a warning that names the place.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "page/page.h"
#include "page/text_fit.h"

namespace loopledger::page {

struct Style {
  double size_pt = 9;
  Face face = Face::sheet;
  Align align = Align::left;
  double smallest_pt = 6.5;  ///< fitted text is not shrunk below this
  int max_lines = 1;
  double grey = 0;
};

/// Millimetres from one baseline to the next.
[[nodiscard]] double line_height(double size_pt);
/// Millimetres from the baseline to the top of a capital letter or digit, both faces.
[[nodiscard]] double cap_height(double size_pt);

class Canvas {
 public:
  Canvas(const FontMetrics& metrics, Diagnostics& warnings)
      : metrics_(metrics), warnings_(warnings) {}

  /// Where the next items go. The page must outlive its use here.
  void turn_to(Page& page) { page_ = &page; }
  /// What is being drawn, for warnings: "the label of TH-01-J".
  void set_place(std::string place) { place_ = std::move(place); }
  [[nodiscard]] const std::string& place() const { return place_; }
  [[nodiscard]] const FontMetrics& metrics() const { return metrics_; }

  void line(double x1, double y1, double x2, double y2, double width = 0.2, double grey = 0);
  /// @pre two points or more
  void polyline(std::vector<Polyline::Point> points, double width, double grey = 0);
  void box(const Box& box);
  /// An empty square to tick, `y` its bottom.
  void tick_box(double x, double y, double side);
  /// A line to write on.
  void blank(double x, double y, double width);
  void qr(Qr symbol);

  /// One line of text as it is, at its baseline; returns its width.
  double text(double x, double y, std::string_view utf8, const Style& style);

  /// Text fitted to a width, first line's top at `y`. Returns the height that it takes. `x` is the
  /// left edge of the room whatever the alignment.
  double fit(double x, double y, double width, std::string_view utf8, const Style& style);

  /// As `fit`, but centred in the box's height by the capitals' height.
  void fit_in(const Box& box, std::string_view utf8, const Style& style);

  /// The lines that the text takes at the style's size, fit to be set with `text`. Never cuts.
  [[nodiscard]] std::vector<std::string> lines_of(double width, std::string_view utf8,
                                                  const Style& style);

  /// The height that `fit` would take. Measuring warns of nothing.
  [[nodiscard]] double height_of(double width, std::string_view utf8, const Style& style);

  [[nodiscard]] double width_of(std::string_view utf8, const Style& style);

 private:
  /// What is said of one thing in one text, and wherever that text is set.
  struct Said {
    std::size_t index = 0;  ///< in warnings_
    std::vector<std::string> named;
    std::set<std::string> places;  ///< all
  };

  [[nodiscard]] std::string for_print(std::string_view utf8, Face face);
  [[nodiscard]] FittedText fitted(const std::string& printed, double width, const Style& style);
  double set_lines(double x, double y, double width, const FittedText& text, const Style& style);
  /// One warning of a code about one text, however often it is set: its places are added to it.
  void warn(const std::string& code, const std::string& message, const std::string& hint);

  const FontMetrics& metrics_;
  Diagnostics& warnings_;
  Page* page_ = nullptr;
  std::string place_;
  std::map<std::string, Said> said_;
};

}  // namespace loopledger::page
