// SPDX-License-Identifier: MIT
//
// Pictures for tests: symbols drawn into grey pictures, the simple ills of photos, and image files
// of many kinds made with the image libraries themselves.
#pragma once

#include <cstdint>
#include <string>

#include "photo/grey.h"
#include "tag/qr.h"

namespace loopledger::test {

/// The text's symbol with its quiet zone, `module` pixels a module.
[[nodiscard]] photo::Grey drawn(const std::string& text, int module);

/// Puts `part` into `picture` with its corner at x, y; what lies outside is left out.
void paste(photo::Grey& picture, const photo::Grey& part, int x, int y);

/// Turned about its centre by an angle in degrees, on `ground`.
[[nodiscard]] photo::Grey turned(const photo::Grey& picture, double degrees, std::uint8_t ground);

/// Grey values moved by up to `amount` either way, from a seed.
[[nodiscard]] photo::Grey with_noise(photo::Grey picture, int amount, unsigned seed);

struct PngForm {
  int color_type = 0;  ///< of png.h
  int depth = 8;
  bool interlaced = false;
};
/// The picture as PNG. With an alpha channel, everything lighter than 128 is written as
/// transparent black.
[[nodiscard]] std::string png(const photo::Grey& picture, const PngForm& form = {});

struct JpegForm {
  enum class Inks { grey, colour, cmyk_inverted, cmyk_plain } inks = Inks::grey;
  bool progressive = false;
  int quality = 90;
};
[[nodiscard]] std::string jpeg(const photo::Grey& picture, const JpegForm& form = {});

/// A PNG that says it has this size and holds no more than its header.
[[nodiscard]] std::string png_header(std::uint32_t width, std::uint32_t height);

}  // namespace loopledger::test
