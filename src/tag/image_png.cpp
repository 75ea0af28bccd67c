// SPDX-License-Identifier: MIT
//
// PNG by libpng's simplified interface, which keeps its long jumps to itself: every colour type,
// depth and interlacing comes out as 8 bit grey over white.
#include <png.h>

#include <cstring>
#include <utility>

#include "tag/image.h"
#include "tag/image_codecs.h"

namespace loopledger::tag {
namespace {

/// The value that rows never reached by a damaged file keep.
constexpr std::uint8_t kUnread = 128;

/// Releases what libpng holds, on every way out.
struct PngImage {
  png_image image{};
  PngImage() { image.version = PNG_IMAGE_VERSION; }
  PngImage(const PngImage&) = delete;
  PngImage& operator=(const PngImage&) = delete;
  ~PngImage() { png_image_free(&image); }
};

bool all_unread(const Grey& grey) {
  return grey.pixels.front() == kUnread &&
         std::memcmp(grey.pixels.data(), grey.pixels.data() + 1, grey.pixels.size() - 1) == 0;
}

}  // namespace

Result<Grey> read_png(std::string_view bytes) {
  PngImage png;
  if (png_image_begin_read_from_memory(&png.image, bytes.data(), bytes.size()) == 0) {
    return damaged("PNG");
  }
  const std::int64_t width = png.image.width;
  const std::int64_t height = png.image.height;
  if (width * height > kMaxPixels) {
    return too_large(width, height);
  }
  png.image.format = PNG_FORMAT_GRAY;
  Grey grey(static_cast<int>(width), static_cast<int>(height), kUnread);
  const png_color white{255, 255, 255};
  if (png_image_finish_read(&png.image, &white, grey.pixels.data(), 0, nullptr) != 0) {
    return grey;
  }
  if (all_unread(grey)) {
    return damaged("PNG");
  }
  return {std::move(grey), {cut_short()}};
}

}  // namespace loopledger::tag
