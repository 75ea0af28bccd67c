// SPDX-License-Identifier: MIT
//
// Diagnostics in colour, for a terminal. The printer itself is base/diagnostic.cpp's.
#pragma once

#include <string>

#include "base/diagnostic.h"

namespace loopledger {

/// Whether the words "error" and "warning" are printed in colour. Nothing else ever is.
enum class Paint { plain, coloured };

/// The diagnostics as `render` prints them, in colour if wanted.
[[nodiscard]] std::string render(const Diagnostics& diagnostics, Paint paint);

}  // namespace loopledger
