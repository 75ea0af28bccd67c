// SPDX-License-Identifier: MIT
//
// A libharu document that is freed when done with, that keeps the first thing that went wrong, and
// that hands out its bytes. Private to pdf/: this is the one header that names the library's types,
// declared ahead so that its own header stays in .cpp files.
#pragma once

#include <optional>
#include <string>

#include "base/result.h"
#include "pdf/fonts.h"
#include "pdf/glyph_parts.h"
#include "pdf/write_pdf.h"

struct _HPDF_Doc_Rec;   // NOLINT(bugprone-reserved-identifier): what HPDF_Doc points to
struct _HPDF_Dict_Rec;  // NOLINT(bugprone-reserved-identifier): what HPDF_Font points to

namespace loopledger::pdf {

/// The library's error state is sticky: after a first failure every call fails, so it is enough to
/// ask once a page and after saving. The callback only records, it never throws through C frames;
/// what the library notes without calling it is asked for too.
class Haru {
 public:
  explicit Haru(const Memory& memory);
  ~Haru();
  Haru(const Haru&) = delete;
  Haru& operator=(const Haru&) = delete;

  [[nodiscard]] _HPDF_Doc_Rec* doc() const { return doc_; }
  [[nodiscard]] bool failed() const;
  /// What went wrong first, as a diagnostic about `what`.
  [[nodiscard]] Diagnostic problem(const std::string& what) const;

  /// The face, loaded when first asked for, with all that this text's letters are put together
  /// from. nullptr: failed().
  [[nodiscard]] _HPDF_Dict_Rec* font(page::Face face, const Fonts& fonts, const std::string& utf8);

  /// The finished file.
  [[nodiscard]] Result<std::string> bytes();

 private:
  static void record(unsigned long error_no, unsigned long detail_no, void* self);

  _HPDF_Doc_Rec* doc_ = nullptr;
  unsigned long first_error_ = 0;
  unsigned long first_detail_ = 0;
  _HPDF_Dict_Rec* fonts_[4] = {};
  std::optional<GlyphParts> parts_[4];
};

}  // namespace loopledger::pdf
