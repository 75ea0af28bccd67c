// SPDX-License-Identifier: MIT
//
// FreeType's view of a font's bytes, closed when done with. Private to pdf/: FreeType's types are
// declared ahead, so that its own headers stay in .cpp files.
#pragma once

#include <memory>
#include <string>

#include "pdf/fonts.h"

struct FT_LibraryRec_;  // NOLINT(bugprone-reserved-identifier): what FT_Library points to
struct FT_FaceRec_;     // NOLINT(bugprone-reserved-identifier): what FT_Face points to

namespace loopledger::pdf {

/// Keeps the bytes for as long as it is there.
class FontFace {
 public:
  explicit FontFace(const FontFile& file);
  ~FontFace();
  FontFace(const FontFace&) = delete;
  FontFace& operator=(const FontFace&) = delete;

  /// nullptr when the bytes are no font.
  [[nodiscard]] FT_FaceRec_* get() const { return face_; }

 private:
  std::shared_ptr<const std::string> bytes_;
  FT_LibraryRec_* library_ = nullptr;
  FT_FaceRec_* face_ = nullptr;
};

}  // namespace loopledger::pdf
