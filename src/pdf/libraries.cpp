// SPDX-License-Identifier: MIT
#include "pdf/libraries.h"

#include <fmt/format.h>
#include <ft2build.h>
#include <hpdf.h>
#include FT_FREETYPE_H

namespace loopledger::pdf {
namespace {

std::string freetype_version() {
  FT_Library library = nullptr;
  if (FT_Init_FreeType(&library) != 0) {
    return "unknown";
  }
  FT_Int major = 0;
  FT_Int minor = 0;
  FT_Int patch = 0;
  FT_Library_Version(library, &major, &minor, &patch);
  FT_Done_FreeType(library);
  return fmt::format("{}.{}.{}", major, minor, patch);
}

}  // namespace

std::vector<Library> libraries() {
  return {{"libharu", HPDF_GetVersion()}, {"FreeType", freetype_version()}};
}

}  // namespace loopledger::pdf
