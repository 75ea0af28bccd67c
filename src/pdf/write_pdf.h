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

/// The document as a PDF file. No clock is asked: the creation date is the document's, or none.
/// Errors: `pdf-faces` (more than two faces), `pdf-empty` (no page), `pdf-write` (the library
/// refused something; a font file that can't be read among it).
[[nodiscard]] Result<std::string> write_pdf(const page::Document& document, const Fonts& fonts);

}  // namespace loopledger::pdf
