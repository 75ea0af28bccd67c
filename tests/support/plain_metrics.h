// SPDX-License-Identifier: MIT
//
// Font metrics for tests of layout: every glyph of a face is as wide as another, so that positions
// in golden texts depend on no font file. Nothing beyond U+FFFF, and no snowman.
#pragma once

#include "base/text.h"
#include "page/page.h"

namespace loopledger::test {

class PlainMetrics final : public page::FontMetrics {
 public:
  /// Of the size; about what the real faces have on average.
  static constexpr double advance(page::Face face) {
    switch (face) {
      case page::Face::sheet:
        return 0.5;
      case page::Face::sheet_bold:
        return 0.58;
      case page::Face::label:
        return 0.42;
      case page::Face::label_bold:
        break;
    }
    return 0.44;
  }
  [[nodiscard]] double width_mm(const std::string& utf8, page::Face face,
                                double size_pt) const override {
    return advance(face) * size_pt * 25.4 / 72 * static_cast<double>(code_point_count(utf8));
  }
  [[nodiscard]] bool has(char32_t code_point, page::Face) const override {
    return code_point <= 0xFFFF && code_point != U'☃';
  }
};

inline const PlainMetrics kPlainMetrics;

}  // namespace loopledger::test
