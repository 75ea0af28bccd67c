// SPDX-License-Identifier: MIT
//
// The program's own fonts, read from the sources.
#pragma once

#include <fstream>
#include <iterator>
#include <memory>
#include <string>

#include "pdf/fonts.h"

namespace loopledger::test {

/// Empty when it can't be read.
inline pdf::FontFile font_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {path, std::make_shared<const std::string>(std::istreambuf_iterator<char>(in),
                                                    std::istreambuf_iterator<char>())};
}

inline pdf::Fonts fonts_in(const std::string& folder) {
  return pdf::own_fonts([&](const std::string& file) { return font_file(folder + "/" + file); });
}

}  // namespace loopledger::test
