// SPDX-License-Identifier: MIT
#include "tag/libraries.h"

#include <cstddef>
#include <cstdio>  // jpeglib.h needs both before it

#if __has_include(<ZXing/Version.h>)
#include <ZXing/Version.h>
#else
#include <ZXing/ZXVersion.h>
#endif
#include <fmt/format.h>
#include <jpeglib.h>
#include <png.h>

#define LOOPLEDGER_TEXT_OF(x) #x
#define LOOPLEDGER_VALUE_OF(x) LOOPLEDGER_TEXT_OF(x)

namespace loopledger::tag {
namespace {

/// Two libraries give the same interface; neither tells its version when it runs.
Library jpeg() {
#ifdef LIBJPEG_TURBO_VERSION
  return {"libjpeg-turbo", LOOPLEDGER_VALUE_OF(LIBJPEG_TURBO_VERSION)};
#else
  return {"libjpeg", LOOPLEDGER_VALUE_OF(JPEG_LIB_VERSION)};
#endif
}

}  // namespace

std::vector<Library> libraries() {
  return {{"ZXing-cpp",
           fmt::format("{}.{}.{}", ZXING_VERSION_MAJOR, ZXING_VERSION_MINOR, ZXING_VERSION_PATCH)},
          jpeg(),
          {"libpng", png_get_libpng_ver(nullptr)}};
}

}  // namespace loopledger::tag
