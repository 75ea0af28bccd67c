// SPDX-License-Identifier: MIT
//
// What must hold before a document is given to the PDF library, which would cut, skip or clamp it
// without a word. Private to pdf/.
#pragma once

#include "base/diagnostic.h"
#include "page/page.h"
#include "pdf/fonts.h"

namespace loopledger::pdf {

/// Empty when the document can be written. Errors: `pdf-empty` (no page), `pdf-faces` (more than
/// two faces), `pdf-text` (a text that is too long, is no UTF-8, or has characters that can't be
/// drawn), `pdf-place` (a place or size that is no number or far off the page), `pdf-outline` (a
/// bookmark of a page that is not there).
/// Also `disk-font`: the file of a face that is used is no whole font.
[[nodiscard]] Diagnostics check_document(const page::Document& document, const Fonts& fonts);

}  // namespace loopledger::pdf
