// SPDX-License-Identifier: MIT
#include "pdf/fonts.h"

namespace loopledger::pdf {

const FontFile& Fonts::of(page::Face face) const {
  switch (face) {
    case page::Face::sheet_bold:
      return sheet_bold;
    case page::Face::label:
      return label;
    case page::Face::label_bold:
      return label_bold;
    case page::Face::sheet:
      break;
  }
  return sheet;
}

Fonts own_fonts(const std::function<FontFile(const std::string& file)>& read) {
  return {.sheet = read("DejaVuSansCondensed.ttf"),
          .sheet_bold = read("DejaVuSansCondensed-Bold.ttf"),
          .label = read("RobotoCondensed-Regular.ttf"),
          .label_bold = read("RobotoCondensed-Bold.ttf")};
}

}  // namespace loopledger::pdf
