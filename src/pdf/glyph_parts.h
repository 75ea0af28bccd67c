// SPDX-License-Identifier: MIT
//
// Which characters besides its own a text must name so that the PDF library embeds all that its
// letters are put together from: it follows the parts of a glyph, but not the parts of parts, and a
// letter with two marks is then drawn without them. Private to pdf/.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "pdf/fonts.h"

namespace loopledger::pdf {

class GlyphParts {
 public:
  /// A file that is no font has no parts.
  explicit GlyphParts(const FontFile& file);
  ~GlyphParts();
  GlyphParts(GlyphParts&&) noexcept;
  GlyphParts& operator=(GlyphParts&&) noexcept;

  /// Characters whose glyphs are parts of parts of this text's glyphs, or have them as parts;
  /// UTF-8, for most texts empty. A part that no character leads to is left out.
  [[nodiscard]] std::string behind(const std::string& utf8);

 private:
  struct Font;
  std::unique_ptr<Font> font_;
  std::map<char32_t, std::vector<char32_t>> known_;  ///< by character of a text
};

}  // namespace loopledger::pdf
