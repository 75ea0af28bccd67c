// SPDX-License-Identifier: MIT
//
// Whether a font file is whole. The PDF library takes a file that ends after its first hundred
// bytes for a font, and the page then has no letters. Private to pdf/.
#pragma once

#include <string>

#include "base/diagnostic.h"

namespace loopledger::pdf {

/// Empty when the file is a TrueType font with outlines, and all its tables lie within it. Error:
/// `disk-font`. What the tables hold is not looked at.
[[nodiscard]] Diagnostics font_problems(const std::string& path);

}  // namespace loopledger::pdf
