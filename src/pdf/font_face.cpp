// SPDX-License-Identifier: MIT
#include "pdf/font_face.h"

#include <ft2build.h>
#include FT_FREETYPE_H

namespace loopledger::pdf {

FontFace::FontFace(const FontFile& file) : bytes_(file.bytes) {
  if (FT_Init_FreeType(&library_) != 0) {
    library_ = nullptr;
    return;
  }
  const auto* bytes = reinterpret_cast<const FT_Byte*>(bytes_->data());
  if (FT_New_Memory_Face(library_, bytes, static_cast<FT_Long>(bytes_->size()), 0, &face_) != 0) {
    face_ = nullptr;
  }
}

FontFace::~FontFace() {
  if (face_ != nullptr) {
    FT_Done_Face(face_);
  }
  if (library_ != nullptr) {
    FT_Done_FreeType(library_);
  }
}

}  // namespace loopledger::pdf
