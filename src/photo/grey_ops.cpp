// SPDX-License-Identifier: MIT
#include "photo/grey_ops.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace loopledger::photo {
namespace {

std::uint8_t clamped(int value) { return static_cast<std::uint8_t>(std::clamp(value, 0, 255)); }

std::size_t at_column(int x) { return static_cast<std::size_t>(x); }

/// Means over windows of 2 radius + 1 rows and columns of value(x, y), handed to take(x, y, mean):
/// sums of columns move down, a sum of those moves right.
template <class Value, class Take>
void for_each_mean(int width, int height, int radius, const Value& value, const Take& take) {
  std::vector<std::uint32_t> columns(at_column(width), 0);
  const auto add_row = [&](int y, bool in) {
    for (int x = 0; x < width; ++x) {
      const std::uint32_t v = value(x, y);
      columns[at_column(x)] += in ? v : 0U - v;
    }
  };
  for (int y = 0; y < std::min(radius, height); ++y) {
    add_row(y, true);
  }
  for (int y = 0; y < height; ++y) {
    if (y + radius < height) {
      add_row(y + radius, true);
    }
    if (y - radius - 1 >= 0) {
      add_row(y - radius - 1, false);
    }
    const int rows = std::min(y + radius, height - 1) - std::max(y - radius, 0) + 1;
    std::uint64_t sum = 0;
    for (int x = 0; x < std::min(radius, width); ++x) {
      sum += columns[at_column(x)];
    }
    for (int x = 0; x < width; ++x) {
      if (x + radius < width) {
        sum += columns[at_column(x + radius)];
      }
      if (x - radius - 1 >= 0) {
        sum -= columns[at_column(x - radius - 1)];
      }
      const int count = rows * (std::min(x + radius, width - 1) - std::max(x - radius, 0) + 1);
      take(x, y, static_cast<float>(sum) / static_cast<float>(count));
    }
  }
}

}  // namespace

Area2 inside(const Grey& picture, const Area2& area) {
  const int x1 = std::clamp(area.x, 0, picture.width);
  const int y1 = std::clamp(area.y, 0, picture.height);
  const int x2 = std::clamp(area.x + std::max(area.width, 0), x1, picture.width);
  const int y2 = std::clamp(area.y + std::max(area.height, 0), y1, picture.height);
  return {x1, y1, x2 - x1, y2 - y1};
}

Grey crop(const Grey& picture, const Area2& area) {
  const Area2 in = inside(picture, area);
  Grey part(in.width, in.height, 0);
  for (int y = 0; y < in.height; ++y) {
    std::copy_n(picture.row(in.y + y) + in.x, in.width, part.row(y));
  }
  return part;
}

void fill(Grey& picture, const Area2& area, std::uint8_t value) {
  const Area2 in = inside(picture, area);
  for (int y = 0; y < in.height; ++y) {
    std::fill_n(picture.row(in.y + y) + in.x, in.width, value);
  }
}

Grey reduced(const Grey& picture, int factor) {
  Grey small(picture.width / factor, picture.height / factor, 0);
  const int count = factor * factor;
  for (int y = 0; y < small.height; ++y) {
    for (int x = 0; x < small.width; ++x) {
      int sum = count / 2;
      for (int dy = 0; dy < factor; ++dy) {
        const std::uint8_t* from = picture.row(y * factor + dy) + at_column(x * factor);
        for (int dx = 0; dx < factor; ++dx) {
          sum += from[dx];
        }
      }
      small.at(x, y) = static_cast<std::uint8_t>(sum / count);
    }
  }
  return small;
}

Grey enlarged(const Grey& picture, int factor) {
  Grey large(picture.width * factor, picture.height * factor, 0);
  if (picture.pixels.empty()) {
    return large;
  }
  // Positions in 1/256 of a pixel; centres of pixels stay centres.
  const auto place = [factor](int i, int count) {
    return std::clamp((256 * (2 * i + 1) / factor - 256) / 2, 0, 256 * (count - 1));
  };
  for (int y = 0; y < large.height; ++y) {
    const int from_y = place(y, picture.height);
    const int fy = from_y % 256;
    const std::uint8_t* above = picture.row(from_y / 256);
    const std::uint8_t* below = picture.row(std::min(from_y / 256 + 1, picture.height - 1));
    std::uint8_t* to = large.row(y);
    for (int x = 0; x < large.width; ++x) {
      const int from_x = place(x, picture.width);
      const int fx = from_x % 256;
      const int left = from_x / 256;
      const int right = std::min(left + 1, picture.width - 1);
      const int top = above[left] * (256 - fx) + above[right] * fx;
      const int bottom = below[left] * (256 - fx) + below[right] * fx;
      to[x] = static_cast<std::uint8_t>((top * (256 - fy) + bottom * fy + 32768) / 65536);
    }
  }
  return large;
}

Grey box_blurred(const Grey& picture, int radius) {
  Grey made(picture.width, picture.height, 0);
  for_each_mean(
      picture.width, picture.height, radius, [&](int x, int y) { return picture.at(x, y); },
      [&](int x, int y, float mean) {
        made.at(x, y) = clamped(static_cast<int>(std::lround(mean)));
      });
  return made;
}

Grey sharpened(const Grey& picture, int radius, double gain) {
  Grey made(picture.width, picture.height, 0);
  const auto k = static_cast<float>(gain);
  for_each_mean(
      picture.width, picture.height, radius, [&](int x, int y) { return picture.at(x, y); },
      [&](int x, int y, float mean) {
        const float v = picture.at(x, y);
        made.at(x, y) = clamped(static_cast<int>(v + k * (v - mean)));
      });
  return made;
}

Grey evened(const Grey& picture, int radius) {
  Grey made(picture.width, picture.height, 0);
  std::vector<float> squares(picture.size());
  for_each_mean(
      picture.width, picture.height, radius,
      [&](int x, int y) {
        const std::uint32_t v = picture.at(x, y);
        return v * v;
      },
      [&](int x, int y, float mean) { squares[picture.index(x, y)] = mean; });
  // The floor keeps plain paper from being blown up into noise.
  constexpr float kLeastDeviation = 3;
  constexpr float kDeviationWanted = 55;
  for_each_mean(
      picture.width, picture.height, radius, [&](int x, int y) { return picture.at(x, y); },
      [&](int x, int y, float mean) {
        const float variance = squares[picture.index(x, y)] - mean * mean;
        const float deviation = std::max(std::sqrt(std::max(variance, 0.0F)), kLeastDeviation);
        const float v = (static_cast<float>(picture.at(x, y)) - mean) / deviation;
        made.at(x, y) = clamped(static_cast<int>(128 + kDeviationWanted * v));
      });
  return made;
}

}  // namespace loopledger::photo
