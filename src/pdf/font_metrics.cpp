// SPDX-License-Identifier: MIT
#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_ADVANCES_H

#include <array>
#include <utility>

#include "base/letters.h"
#include "base/text.h"
#include "pdf/font_file.h"
#include "pdf/fonts.h"

namespace loopledger::pdf {
namespace {

constexpr double kMmPerPoint = 25.4 / 72;

class FreeTypeMetrics final : public page::FontMetrics {
 public:
  FreeTypeMetrics() = default;
  FreeTypeMetrics(const FreeTypeMetrics&) = delete;
  FreeTypeMetrics& operator=(const FreeTypeMetrics&) = delete;
  ~FreeTypeMetrics() override {
    for (FT_Face face : faces_) {
      if (face != nullptr) {
        FT_Done_Face(face);
      }
    }
    if (library_ != nullptr) {
      FT_Done_FreeType(library_);
    }
  }

  /// The path that could not be loaded, or empty.
  std::string load(const Fonts& fonts) {
    if (FT_Init_FreeType(&library_) != 0) {
      return "the FreeType library";
    }
    for (std::size_t i = 0; i < faces_.size(); ++i) {
      const std::string& path = fonts.of(static_cast<page::Face>(i));
      if (FT_New_Face(library_, path.c_str(), 0, &faces_[i]) != 0 || faces_[i]->units_per_EM == 0 ||
          FT_Select_Charmap(faces_[i], FT_ENCODING_UNICODE) != 0 ||
          FT_Get_Char_Index(faces_[i], U'?') == 0) {
        return path;
      }
    }
    return {};
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
  [[nodiscard]] FT_Face at(page::Face face) const { return faces_[static_cast<std::size_t>(face)]; }

  /// In thousandths of the em, cut to a whole number as the PDF's width table has it.
  static long advance(char32_t c, FT_Face face) {
    FT_Fixed units = 0;
    if (FT_Get_Advance(face, FT_Get_Char_Index(face, c), FT_LOAD_NO_SCALE, &units) != 0) {
      return 0;
    }
    return units * 1000 / face->units_per_EM;
  }

  FT_Library library_ = nullptr;
  std::array<FT_Face, 4> faces_{};
};

}  // namespace

Result<std::unique_ptr<page::FontMetrics>> load_metrics(const Fonts& fonts) {
  for (const std::string* path :
       {&fonts.sheet, &fonts.sheet_bold, &fonts.label, &fonts.label_bold}) {
    if (Diagnostics problems = font_problems(*path); !problems.empty()) {
      return problems;
    }
  }
  auto metrics = std::make_unique<FreeTypeMetrics>();
  const std::string failed = metrics->load(fonts);
  if (!failed.empty()) {
    return error("disk-font", "expected a readable TrueType font, could not load " + failed,
                 "the program brings its fonts in the folder fonts; LOOPLEDGER_DATA names the "
                 "folder that holds it");
  }
  return std::unique_ptr<page::FontMetrics>(std::move(metrics));
}

}  // namespace loopledger::pdf
