// SPDX-License-Identifier: MIT
#include "pdf/fonts.h"

namespace loopledger::pdf {

const std::string& Fonts::of(page::Face face) const {
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

Fonts fonts_in(const std::string& folder) {
  return {.sheet = folder + "/DejaVuSansCondensed.ttf",
          .sheet_bold = folder + "/DejaVuSansCondensed-Bold.ttf",
          .label = folder + "/RobotoCondensed-Regular.ttf",
          .label_bold = folder + "/RobotoCondensed-Bold.ttf"};
}

}  // namespace loopledger::pdf
