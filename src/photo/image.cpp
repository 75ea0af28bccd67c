// SPDX-License-Identifier: MIT
#include "photo/image.h"

#include <algorithm>
#include <array>
#include <string>

#include "base/text.h"
#include "photo/image_codecs.h"

namespace loopledger::photo {
namespace {

using namespace std::string_view_literals;

struct Magic {
  std::string_view bytes;
  std::size_t at;
  ImageKind kind;
};

constexpr std::array kMagics{
    Magic{"\x89PNG\r\n\x1a\n"sv, 0, ImageKind::png},
    Magic{"\xff\xd8\xff"sv, 0, ImageKind::jpeg},
    Magic{"GIF8"sv, 0, ImageKind::gif},
    Magic{"WEBP"sv, 8, ImageKind::webp},
    Magic{"II*\0"sv, 0, ImageKind::tiff},
    Magic{"MM\0*"sv, 0, ImageKind::tiff},
    Magic{"%PDF-"sv, 0, ImageKind::pdf},
    Magic{"<svg"sv, 0, ImageKind::svg},
};

/// The box at the start of the HEIF family, of which phones make most pictures: only its image
/// brands, since films begin with the same box.
bool is_heif(std::string_view bytes) {
  if (bytes.size() < 12 || bytes.substr(4, 4) != "ftyp") {
    return false;
  }
  const std::string_view brand = bytes.substr(8, 4);
  constexpr std::array kBrands{"heic"sv, "heix"sv, "heim"sv, "heis"sv, "hevc"sv,
                               "mif1"sv, "msf1"sv, "avif"sv, "avis"sv};
  return std::find(kBrands.begin(), kBrands.end(), brand) != kBrands.end();
}

/// "BM", the file's size, and four zero bytes: two letters alone could begin a typed line.
bool is_bmp(std::string_view bytes) {
  return bytes.size() > 14 && bytes.starts_with("BM") && bytes.substr(6, 4) == "\0\0\0\0"sv;
}

Diagnostic unreadable_kind(ImageKind kind) {
  const std::string expected = "expected a PNG or JPEG image, found ";
  switch (kind) {
    case ImageKind::heic:
      return error("image-form", expected + "a HEIC picture",
                   "set the phone's camera to its most compatible format, or send the picture to "
                   "yourself as JPEG");
    case ImageKind::webp:
      return error("image-form", expected + "WebP", "save or export it as JPEG or PNG");
    case ImageKind::gif:
      return error("image-form", expected + "GIF", "save or export it as PNG");
    case ImageKind::tiff:
      return error("image-form", expected + "TIFF", "save or export it as PNG");
    case ImageKind::bmp:
      return error("image-form", expected + "BMP", "save or export it as PNG");
    case ImageKind::svg:
      return error("image-form", expected + "a drawing (SVG)", "export it as PNG");
    case ImageKind::pdf:
      return error("image-form", expected + "a PDF",
                   "make a picture of the page, for example with a screenshot at full size");
    default:
      return error("image-form", expected + "something else",
                   "give a photo or a scan of the label");
  }
}

}  // namespace

ImageKind image_kind(std::string_view bytes) {
  for (const Magic& magic : kMagics) {
    if (bytes.size() >= magic.at + magic.bytes.size() &&
        bytes.substr(magic.at, magic.bytes.size()) == magic.bytes) {
      return magic.kind;
    }
  }
  if (is_heif(bytes)) {
    return ImageKind::heic;
  }
  return is_bmp(bytes) ? ImageKind::bmp : ImageKind::none;
}

Diagnostic too_large(std::int64_t width, std::int64_t height) {
  return error("image-size",
               "expected a picture of at most 64 million pixels, found " + std::to_string(width) +
                   " x " + std::to_string(height),
               "make it smaller, or cut out the part with the label");
}

Diagnostic damaged(std::string_view format) {
  return error("image-damaged", "the " + std::string(format) + " file is damaged",
               "copy the picture again, or take another");
}

Diagnostic cut_short() {
  return warning("image-cut",
                 "the file is damaged or ends early; only a part of the picture "
                 "could be read");
}

Result<Grey> read_image(std::string_view bytes) {
  if (bytes.empty()) {
    return error("image-empty", "the file is empty");
  }
  const ImageKind kind = image_kind(bytes);
  if (kind == ImageKind::png) {
    return read_png(bytes);
  }
  if (kind == ImageKind::jpeg) {
    return read_jpeg(bytes);
  }
  return unreadable_kind(kind);
}

}  // namespace loopledger::photo
