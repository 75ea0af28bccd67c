// SPDX-License-Identifier: MIT
//
// A libharu document that is freed when done with, that keeps the first thing that went wrong, and
// that hands out its bytes. Private to pdf/: this is the one header that names the library.
#pragma once

#include <hpdf.h>

#include <string>

#include "base/result.h"
#include "pdf/fonts.h"

namespace loopledger::pdf {

/// The library's error state is sticky: after a first failure every call fails, so it is enough to
/// ask once a page and after saving. The callback only records, it never throws through C frames.
class Haru {
 public:
  Haru();
  ~Haru();
  Haru(const Haru&) = delete;
  Haru& operator=(const Haru&) = delete;

  [[nodiscard]] HPDF_Doc doc() const { return doc_; }
  [[nodiscard]] bool failed() const { return doc_ == nullptr || first_error_ != 0; }
  /// What went wrong first, as a diagnostic about `what`.
  [[nodiscard]] Diagnostic problem(const std::string& what) const;

  /// The face, loaded when first asked for. nullptr: failed().
  [[nodiscard]] HPDF_Font font(page::Face face, const Fonts& fonts);

  /// The finished file.
  [[nodiscard]] Result<std::string> bytes();

 private:
  static void record(HPDF_STATUS error_no, HPDF_STATUS detail_no, void* self);

  HPDF_Doc doc_ = nullptr;
  HPDF_STATUS first_error_ = 0;
  HPDF_STATUS first_detail_ = 0;
  HPDF_Font fonts_[4] = {};
};

}  // namespace loopledger::pdf
