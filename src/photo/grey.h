// SPDX-License-Identifier: MIT
//
// A grey picture in memory: what image files are read into, and what the reading of symbols works
// on. 0 is black, 255 white; rows from the top, without gaps.
#pragma once

#include <cstdint>
#include <vector>

namespace loopledger::photo {

struct Grey {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> pixels;

  Grey() = default;
  Grey(int w, int h, std::uint8_t value)
      : width(w),
        height(h),
        pixels(static_cast<std::size_t>(w) * static_cast<std::size_t>(h), value) {}
  [[nodiscard]] std::size_t size() const { return pixels.size(); }
  [[nodiscard]] std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
           static_cast<std::size_t>(x);
  }
  [[nodiscard]] std::uint8_t at(int x, int y) const { return pixels[index(x, y)]; }
  [[nodiscard]] std::uint8_t& at(int x, int y) { return pixels[index(x, y)]; }
  [[nodiscard]] const std::uint8_t* row(int y) const { return pixels.data() + index(0, y); }
  [[nodiscard]] std::uint8_t* row(int y) { return pixels.data() + index(0, y); }
};

}  // namespace loopledger::photo
