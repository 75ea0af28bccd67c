// SPDX-License-Identifier: MIT
//
// Whether a font file is whole. The PDF library takes a file that ends after its first hundred
// bytes for a font, and the page then has no letters. Private to pdf/.
#pragma once

#include <string>

#include "base/diagnostic.h"
#include "pdf/fonts.h"

namespace loopledger::pdf {

/// Empty when it is a TrueType font with outlines, and all its tables lie within it. Error:
/// `disk-font`. What the tables hold is not looked at.
[[nodiscard]] Diagnostics font_problems(const FontFile& file);

/// That this font can't be used. @param trouble "expected a whole TrueType font, could not use"
[[nodiscard]] Diagnostic bad_font(const std::string& trouble, const FontFile& file);

}  // namespace loopledger::pdf
