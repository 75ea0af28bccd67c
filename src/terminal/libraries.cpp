// SPDX-License-Identifier: MIT
#include "terminal/libraries.h"

#include <cstddef>
#include <cstdio>  // jpeglib.h needs both before it

#if __has_include(<ZXing/Version.h>)
#include <ZXing/Version.h>
#else
#include <ZXing/ZXVersion.h>
#endif
#include <fmt/format.h>
#include <ft2build.h>
#include <hpdf.h>
#include <jpeglib.h>
#include <png.h>
#include <toml++/toml.h>
#include <utf8proc.h>

#include <CLI/Version.hpp>
#include <boost/version.hpp>
#include <string>
#include <vector>

#include "base/text.h"
#include FT_FREETYPE_H

#define LOOPLEDGER_TEXT_OF(x) #x
#define LOOPLEDGER_VALUE_OF(x) LOOPLEDGER_TEXT_OF(x)

namespace loopledger::terminal {
namespace {

std::string version(int major, int minor, int patch) {
  return fmt::format("{}.{}.{}", major, minor, patch);
}

std::string freetype() {
  FT_Library library = nullptr;
  if (FT_Init_FreeType(&library) != 0) {
    return "FreeType unknown";
  }
  FT_Int major = 0;
  FT_Int minor = 0;
  FT_Int patch = 0;
  FT_Library_Version(library, &major, &minor, &patch);
  FT_Done_FreeType(library);
  return "FreeType " + version(major, minor, patch);
}

/// Two libraries give the same interface; neither tells its version when it runs.
std::string jpeg() {
#ifdef LIBJPEG_TURBO_VERSION
  return "libjpeg-turbo " LOOPLEDGER_VALUE_OF(LIBJPEG_TURBO_VERSION);
#else
  return "libjpeg " LOOPLEDGER_VALUE_OF(JPEG_LIB_VERSION);
#endif
}

/// Of the libraries that run where they say so, else of their headers.
std::vector<std::string> libraries() {
  return {
      std::string("libharu ") + HPDF_GetVersion(),
      freetype(),
      "ZXing-cpp " + version(ZXING_VERSION_MAJOR, ZXING_VERSION_MINOR, ZXING_VERSION_PATCH),
      jpeg(),
      std::string("libpng ") + png_get_libpng_ver(nullptr),
      "toml++ " + version(TOML_LIB_MAJOR, TOML_LIB_MINOR, TOML_LIB_PATCH),
      "fmt " + version(FMT_VERSION / 10000, FMT_VERSION / 100 % 100, FMT_VERSION % 100),
      "Boost " + version(BOOST_VERSION / 100000, BOOST_VERSION / 100 % 1000, BOOST_VERSION % 100),
      std::string("utf8proc ") + utf8proc_version(),
      std::string("CLI11 ") + CLI11_VERSION,
  };
}

}  // namespace

std::string version_text(const Context& context) {
  std::string text = "loopledger " LOOPLEDGER_VERSION "\n";
  for (const std::string& library : libraries()) {
    text += "  " + library + "\n";
  }
  const std::vector<std::string> folders = context.world.templates.folders();
  text += folders.empty() ? "no folder with templates and fonts was found" : "templates in";
  for (const std::string& folder : folders) {
    text += "\n  " + printable(folder);
  }
  return text;
}

}  // namespace loopledger::terminal
