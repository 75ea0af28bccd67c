// SPDX-License-Identifier: MIT
//
// Image files as bytes -> a grey picture. PNG and JPEG in all their forms; other formats are
// recognised so that the message can say what to do. Input is untrusted: memory and time are
// bounded by the picture's stated size, which is checked first.
//
// Orientation marks of cameras are ignored: symbols are read whichever way they lie.
#pragma once

#include <cstdint>
#include <string_view>

#include "base/result.h"
#include "photo/grey.h"

namespace loopledger::photo {

inline constexpr std::int64_t kMaxPixels = 64'000'000;
inline constexpr std::uint64_t kMaxImageBytes = 256u << 20;  ///< of a file worth opening

enum class ImageKind { none, png, jpeg, heic, webp, gif, tiff, bmp, pdf, svg };

/// By the first bytes; `none` when they are no image's.
[[nodiscard]] ImageKind image_kind(std::string_view bytes);

/// Transparent parts are laid over white. A file that ends early or is damaged further down gives
/// what could be read, the rest grey, and a warning `image-cut`.
/// Errors: `image-empty`, `image-form` (not PNG or JPEG), `image-size` (over 64 million pixels),
/// `image-damaged`.
[[nodiscard]] Result<Grey> read_image(std::string_view bytes);

}  // namespace loopledger::photo
