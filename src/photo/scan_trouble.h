// SPDX-License-Identifier: MIT
//
// Why no label was read in a picture, as far as the picture itself tells, and what to do about it.
// It measures size, light, contrast, glare and sharpness where a symbol was seen, or else all over.
#pragma once

#include "base/diagnostic.h"
#include "photo/grey.h"
#include "photo/scan.h"

namespace loopledger::photo {

enum class Trouble { unknown, small, far, dark, faint, glare, blurred };

/// The likeliest reason. @pre scan is scan_picture(picture), without labels
[[nodiscard]] Trouble trouble_in(const Grey& picture, const Scan& scan);

/// Error `none-label`, with the likely reason and what to do as its hint. When other symbols were
/// read it says so.
[[nodiscard]] Diagnostic why_unread(const Grey& picture, const Scan& scan);

}  // namespace loopledger::photo
