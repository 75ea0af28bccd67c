// SPDX-License-Identifier: MIT
//
// Reading a PDF back with programs that had no part in writing it.
#pragma once

#include <string>
#include <vector>

#include "page/page.h"
#include "pdf/fonts.h"
#include "sheets/label_grid.h"
#include "support/ran.h"
#include "support/temp_folder.h"

namespace loopledger::test {

/// The program's own fonts.
[[nodiscard]] const pdf::Fonts& fonts();
[[nodiscard]] const page::FontMetrics& metrics();

/// Runs a command line in a shell.
[[nodiscard]] Ran run_tool(const std::string& command);

/// The document written to `folder`/`name`; the path. The test fails when it can't be.
std::string written(const page::Document& document, const TempFolder& folder,
                    const std::string& name);

/// A word on a page as the reader sees it, in mm from the top left corner.
struct SeenWord {
  std::size_t page = 0;
  std::string text;
  double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
};
[[nodiscard]] std::vector<SeenWord> words_of(const std::string& pdf);

/// A QR symbol's place in the page's own drawing instructions, in mm from the top left corner.
struct SeenSymbol {
  std::size_t page = 0;
  double x = 0, y = 0, module = 0;
};
[[nodiscard]] std::vector<SeenSymbol> symbols_of(const std::string& pdf);

/// A cut-out of the rasterised page (1-based, mm) as a grey picture, PGM; its path.
[[nodiscard]] std::string picture_of(const std::string& pdf, std::size_t page,
                                     const sheets::Rect& where, int dpi, const TempFolder& folder,
                                     const std::string& name);

/// The codes that ZXing-cpp reads in a grey picture, and that zbarimg reads in each of many.
[[nodiscard]] std::vector<std::string> codes_by_zxing(const std::string& picture);
[[nodiscard]] std::vector<std::vector<std::string>> codes_by_zbar(
    const std::vector<std::string>& pictures);

}  // namespace loopledger::test
