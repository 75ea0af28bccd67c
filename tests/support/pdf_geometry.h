// SPDX-License-Identifier: MIT
//
// A small reader of a PDF's own drawing instructions, as far as our PDFs use them: what is drawn on
// each page, where, how thick and how dark, in millimetres from the top left corner. It shares no
// code with what wrote them; qpdf takes the file apart.
#pragma once

#include <string>
#include <vector>

#include "page/page.h"

namespace loopledger::test {

/// One thing drawn. Of a text x is its left end, and x2 its right end by the PDF's own widths; a QR
/// symbol has its dark modules and no text.
struct Drawn {
  page::Item item;
  double x2 = 0;
  bool blank_glyph = false;  ///< of a text: a character is drawn as the face's empty box
};

struct DrawnPage {
  double width = 0, height = 0;
  std::vector<Drawn> items;
};

/// All pages. The test fails on an instruction that the reader does not know.
[[nodiscard]] std::vector<DrawnPage> geometry_of(const std::string& pdf);

/// How what is drawn differs from the page model by more than `mm`, in the model's order; empty
/// when it does not.
[[nodiscard]] std::string geometry_differences(const page::Document& wanted,
                                               const std::vector<DrawnPage>& drawn,
                                               const page::FontMetrics& metrics, double mm);

}  // namespace loopledger::test
