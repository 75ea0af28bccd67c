// SPDX-License-Identifier: MIT
#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_ADVANCES_H

#include <array>
#include <utility>

#include "base/letters.h"
#include "base/text.h"
#include "pdf/font_face.h"
#include "pdf/font_file.h"
#include "pdf/fonts.h"

namespace loopledger::pdf {
namespace {

constexpr double kMmPerPoint = 25.4 / 72;
constexpr std::array kFaces{page::Face::sheet, page::Face::sheet_bold, page::Face::label,
                            page::Face::label_bold};

class FreeTypeMetrics final : public page::FontMetrics {
 public:
  explicit FreeTypeMetrics(const Fonts& fonts)
      : faces_{FontFace(fonts.sheet), FontFace(fonts.sheet_bold), FontFace(fonts.label),
               FontFace(fonts.label_bold)} {}

  /// Whether the face can measure letters.
  [[nodiscard]] bool is_good(page::Face face) const {
    return at(face) != nullptr && at(face)->units_per_EM != 0 &&
           FT_Select_Charmap(at(face), FT_ENCODING_UNICODE) == 0 &&
           FT_Get_Char_Index(at(face), U'?') != 0;
  }

  [[nodiscard]] double width_mm(const std::string& utf8, page::Face face,
                                double size_pt) const override {
    long thousandths = 0;
    for (const char32_t c : code_points(utf8)) {
      thousandths += advance(c, at(face));
    }
    return static_cast<double>(thousandths) / 1000 * size_pt * kMmPerPoint;
  }

  [[nodiscard]] bool has(char32_t code_point, page::Face face) const override {
    return code_point <= 0xFFFF && !runs_from_right(code_point) && !joins_neighbours(code_point) &&
           FT_Get_Char_Index(at(face), code_point) != 0;
  }

 private:
  [[nodiscard]] FT_Face at(page::Face face) const {
    return faces_.at(static_cast<std::size_t>(face)).get();
  }

  /// In thousandths of the em, cut to a whole number as the PDF's width table has it.
  static long advance(char32_t c, FT_Face face) {
    FT_Fixed units = 0;
    if (FT_Get_Advance(face, FT_Get_Char_Index(face, c), FT_LOAD_NO_SCALE, &units) != 0) {
      return 0;
    }
    return units * 1000 / face->units_per_EM;
  }

  std::array<FontFace, 4> faces_;  ///< by page::Face
};

}  // namespace

Result<std::unique_ptr<page::FontMetrics>> load_metrics(const Fonts& fonts) {
  for (const page::Face face : kFaces) {
    if (Diagnostics problems = font_problems(fonts.of(face)); !problems.empty()) {
      return problems;
    }
  }
  auto metrics = std::make_unique<FreeTypeMetrics>(fonts);
  for (const page::Face face : kFaces) {
    if (!metrics->is_good(face)) {
      return bad_font("expected a readable TrueType font, could not load", fonts.of(face));
    }
  }
  return std::unique_ptr<page::FontMetrics>(std::move(metrics));
}

}  // namespace loopledger::pdf
