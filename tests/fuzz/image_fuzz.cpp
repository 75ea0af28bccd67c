// SPDX-License-Identifier: MIT
#include <string>

#include "fuzz/claim.h"
#include "fuzz/targets.h"
#include "fuzz/whole_png.h"
#include "photo/image.h"

namespace loopledger::fuzz {
namespace {

void read_one(std::string_view bytes) {
  const auto picture = photo::read_image(bytes);
  claim_result(picture, bytes.size());
  claim(picture.diagnostics().size() <= 1, "more than one word on a picture");
  if (!picture) {
    return;
  }
  claim(picture->width > 0 && picture->height > 0, "a picture without pixels");
  claim(std::int64_t{picture->width} * picture->height <= photo::kMaxPixels, "a picture too large");
  claim(picture->size() ==
            static_cast<std::size_t>(picture->width) * static_cast<std::size_t>(picture->height),
        "pixels too many or too few");
  const auto kind = photo::image_kind(bytes);
  claim(kind == photo::ImageKind::png || kind == photo::ImageKind::jpeg,
        "a picture of another kind");
}

}  // namespace

void image(std::string_view input) {
  read_one(input);
  // A changed byte breaks a chunk's checksum, and the library looks no further: once more mended.
  if (const std::string whole = with_right_checksums(input); whole != input) {
    read_one(whole);
  }
}

}  // namespace loopledger::fuzz
