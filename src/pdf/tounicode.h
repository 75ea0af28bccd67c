// SPDX-License-Identifier: MIT
//
// Copying and searching text in the PDF: libharu's own table of character codes (ToUnicode) is one
// that readers warn about, so it is replaced by a well-formed one. Private to pdf/.
#pragma once

#include <string>

namespace loopledger::pdf {

/// A ToUnicode CMap that maps every two-byte code to the code point of the same number.
[[nodiscard]] std::string identity_to_unicode();

}  // namespace loopledger::pdf
