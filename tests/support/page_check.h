// SPDX-License-Identifier: MIT
//
// Questions about a page model that layout tests ask again and again.
#pragma once

#include <string>
#include <vector>

#include "page/page.h"

namespace loopledger::test {

/// What an item takes on the page, in mm.
struct Extent {
  double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
  std::string what;
};

/// Of every item; text by its metrics, from capitals' height down to the descenders, QR symbols
/// without quiet zone.
[[nodiscard]] std::vector<Extent> extents(const page::Page& page, const page::FontMetrics& metrics);
[[nodiscard]] std::vector<Extent> text_extents(const page::Page& page,
                                               const page::FontMetrics& metrics);

/// True when the two share more than a hair.
[[nodiscard]] bool overlap(const Extent& a, const Extent& b);

/// What stands nearer than `margin` to the paper's edge, described; empty when nothing does.
[[nodiscard]] std::string out_of_margin(const page::Document& document,
                                        const page::FontMetrics& metrics, double margin);

/// What texts of one page lie over each other, described; empty when none do.
[[nodiscard]] std::string overlapping_texts(const page::Document& document,
                                            const page::FontMetrics& metrics);

/// What text begins in a box (its middle is in it) and stands out of it, described.
[[nodiscard]] std::string texts_out_of_boxes(const page::Document& document,
                                             const page::FontMetrics& metrics);

/// The points that a line of text is first printed at; 0 when it is not there.
[[nodiscard]] double size_of_line(const page::Document& document, const std::string& line);

/// All texts of the document, one a line.
[[nodiscard]] std::string all_text(const page::Document& document);

}  // namespace loopledger::test
