// SPDX-License-Identifier: MIT
//
// The two image formats, each in its own file since each speaks to its own library. Used by
// photo/image.cpp only.
#pragma once

#include <cstdint>
#include <string_view>

#include "base/result.h"
#include "photo/grey.h"

namespace loopledger::photo {

[[nodiscard]] Result<Grey> read_png(std::string_view bytes);
[[nodiscard]] Result<Grey> read_jpeg(std::string_view bytes);

// What both say alike.
[[nodiscard]] Diagnostic too_large(std::int64_t width, std::int64_t height);
[[nodiscard]] Diagnostic damaged(std::string_view format);
[[nodiscard]] Diagnostic cut_short();

}  // namespace loopledger::photo
