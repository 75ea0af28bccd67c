// SPDX-License-Identifier: MIT
//
// Steps on grey pictures that bring a symbol out: each takes a picture and gives a new one. All
// run in time proportional to the pixels, whatever the radius.
#pragma once

#include "photo/grey.h"

namespace loopledger::photo {

/// A rectangle of pixels; may reach outside a picture, `crop` cuts it back.
struct Area2 {
  int x = 0, y = 0, width = 0, height = 0;
  [[nodiscard]] bool contains(double px, double py) const {
    return px >= x && py >= y && px < x + width && py < y + height;
  }
};

/// The part of `area` that lies inside the picture; width or height 0 when none does.
[[nodiscard]] Area2 inside(const Grey& picture, const Area2& area);

[[nodiscard]] Grey crop(const Grey& picture, const Area2& area);

/// Sets the area to one value, in place: what was read once is painted over.
void fill(Grey& picture, const Area2& area, std::uint8_t value);

/// Mean of `factor` x `factor` pixels; what does not fill a last block is dropped.
[[nodiscard]] Grey reduced(const Grey& picture, int factor);

/// `factor` times as large, bilinear.
[[nodiscard]] Grey enlarged(const Grey& picture, int factor);

/// Mean over a square of side 2 radius + 1, cut at the edges.
[[nodiscard]] Grey box_blurred(const Grey& picture, int radius);

/// picture + gain (picture - box_blurred(picture, radius)).
[[nodiscard]] Grey sharpened(const Grey& picture, int radius, double gain);

/// Every neighbourhood brought to the same mean and contrast: (v - mean) / deviation.
[[nodiscard]] Grey evened(const Grey& picture, int radius);

}  // namespace loopledger::photo
