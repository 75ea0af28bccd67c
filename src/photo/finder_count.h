// SPDX-License-Identifier: MIT
//
// How many places of a picture the library would take for corner squares (ISO/IEC 18004: dark 3 x
// 3, light ring, dark ring). It holds each three of them against each other, so that its time goes
// with the third power of their number: this counts them before it is asked, in a time that goes
// with the pixels.
#pragma once

#include <cstddef>

#include "photo/grey.h"
#include "photo/symbols.h"

namespace loopledger::photo {

/// Counted as the library looks: runs of dark and light of 1:1:3:1:1 along a row and a column, with
/// rings about them, each place once, and rather too many than too few; also in the picture as it
/// is reduced for a second look. Counting ends at `most`.
[[nodiscard]] std::size_t finder_count(const Grey& picture, Threshold threshold, std::size_t most);

}  // namespace loopledger::photo
