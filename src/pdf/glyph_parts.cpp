// SPDX-License-Identifier: MIT
#include "pdf/glyph_parts.h"

#include <ft2build.h>
#include FT_FREETYPE_H

#include <algorithm>
#include <set>

#include "base/text.h"
#include "pdf/font_face.h"

namespace loopledger::pdf {
namespace {

using Glyphs = std::vector<FT_UInt>;

constexpr char32_t kLastDrawn = 0xFFFF;  ///< what lies beyond is never drawn

}  // namespace

struct GlyphParts::Font {
  explicit Font(const FontFile& file) : opened(file), face(opened.get()) {}

  FontFace opened;
  FT_Face face;                          ///< nullptr: there is none
  std::map<FT_UInt, char32_t> leads_to;  ///< by part: the first character that has it

  [[nodiscard]] Glyphs parts_of(FT_UInt glyph) const {
    Glyphs parts;
    if (FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE | FT_LOAD_NO_RECURSE) != 0 ||
        face->glyph->format != FT_GLYPH_FORMAT_COMPOSITE) {
      return parts;
    }
    for (FT_UInt i = 0; i < face->glyph->num_subglyphs; ++i) {
      FT_Int part = 0;
      FT_UInt flags = 0;
      FT_Int x = 0;
      FT_Int y = 0;
      FT_Matrix matrix;
      if (FT_Get_SubGlyph_Info(face->glyph, i, &part, &flags, &x, &y, &matrix) == 0 && part > 0) {
        parts.push_back(static_cast<FT_UInt>(part));
      }
    }
    return parts;
  }

  /// Every part of a part, however deep; a font whose parts go in circles ends it.
  [[nodiscard]] std::set<FT_UInt> deep_parts_of(FT_UInt glyph) const {
    std::set<FT_UInt> deep;
    Glyphs open = parts_of(glyph);
    while (!open.empty()) {
      const FT_UInt part = open.back();
      open.pop_back();
      for (const FT_UInt inner : parts_of(part)) {
        if (deep.insert(inner).second) {
          open.push_back(inner);
        }
      }
    }
    return deep;
  }

  /// A character that makes the library embed this glyph, or 0.
  [[nodiscard]] char32_t character_for(FT_UInt wanted) {
    if (leads_to.empty()) {
      FT_UInt glyph = 0;
      for (FT_ULong c = FT_Get_First_Char(face, &glyph); glyph != 0 && c <= kLastDrawn;
           c = FT_Get_Next_Char(face, c, &glyph)) {
        leads_to.try_emplace(glyph, static_cast<char32_t>(c));
        for (const FT_UInt part : parts_of(glyph)) {
          leads_to.try_emplace(part, static_cast<char32_t>(c));
        }
      }
    }
    const auto found = leads_to.find(wanted);
    return found == leads_to.end() ? 0 : found->second;
  }
};

GlyphParts::GlyphParts(const FontFile& file) : font_(std::make_unique<Font>(file)) {}

GlyphParts::~GlyphParts() = default;
GlyphParts::GlyphParts(GlyphParts&&) noexcept = default;
GlyphParts& GlyphParts::operator=(GlyphParts&&) noexcept = default;

std::string GlyphParts::behind(const std::string& utf8) {
  std::vector<char32_t> all;
  if (font_->face == nullptr) {
    return {};
  }
  for (const char32_t c : code_points(utf8)) {
    const auto [known, fresh] = known_.try_emplace(c);
    if (fresh) {
      for (const FT_UInt part : font_->deep_parts_of(FT_Get_Char_Index(font_->face, c))) {
        if (const char32_t leading = font_->character_for(part); leading != 0) {
          known->second.push_back(leading);
        }
      }
    }
    all.insert(all.end(), known->second.begin(), known->second.end());
  }
  return to_utf8(all);
}

}  // namespace loopledger::pdf
