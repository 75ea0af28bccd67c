// SPDX-License-Identifier: MIT
//
// Pages as PDF bytes. True to scale (printers are asked not to shrink the page), with text that can
// be searched and copied in any of the fonts' languages, and the same bytes for the same document.
#pragma once

#include <string>

#include "base/result.h"
#include "page/page.h"
#include "pdf/fonts.h"

namespace loopledger::pdf {

/// Where the library's memory comes from; by default the C library's.
struct Memory {
  void* (*take)(unsigned size) = nullptr;  ///< nullptr when there is none
  void (*give_back)(void* block) = nullptr;
};

/// The document as a PDF file. No clock is asked: the creation date is the document's, or none.
/// Errors: those of check_document (`pdf-empty`, `pdf-faces`, `pdf-text`, `pdf-place`,
/// `pdf-outline`, `disk-font`), `pdf-write` (the library refused something, or had no memory).
[[nodiscard]] Result<std::string> write_pdf(const page::Document& document, const Fonts& fonts,
                                            const Memory& memory = {});

}  // namespace loopledger::pdf
