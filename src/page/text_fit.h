// SPDX-License-Identifier: MIT
//
// Making text fit a width: shrink, then wrap, then an ellipsis, in that order. Pure; what was cut
// is said in the result, so that the caller can warn. A letter and the marks on it are never
// parted. Texts are well-formed UTF-8.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "page/page.h"

namespace loopledger::page {

inline constexpr double kMmPerPoint = 25.4 / 72;

/// How a text may be set: from `size` down to `smallest`, on at most `max_lines` lines.
struct FitRules {
  Face face = Face::sheet;
  double size_pt = 10;
  double smallest_pt = 7;
  int max_lines = 1;
};

struct FittedText {
  std::vector<std::string> lines;
  double size_pt = 0;
  bool cut = false;  ///< an ellipsis stands for what did not fit
};

/// One line at the largest size that fits; else lines at the smallest size, broken at spaces
/// (within a word only when it is wider than the line); else the last line ends in an ellipsis.
[[nodiscard]] FittedText fit_text(std::string_view utf8, double width_mm, const FitRules& rules,
                                  const FontMetrics& metrics);

/// All the lines that the text takes at one size. Never cuts.
[[nodiscard]] std::vector<std::string> wrap(std::string_view utf8, double width_mm, Face face,
                                            double size_pt, const FontMetrics& metrics);

}  // namespace loopledger::page
