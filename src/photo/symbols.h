// SPDX-License-Identifier: MIT
//
// One reading of a grey picture by the library: every QR symbol in it, also those that were seen
// but could not be decoded. photo/scan.h decides what to try; this only looks once.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "photo/grey.h"
#include "photo/grey_ops.h"

namespace loopledger::photo {

struct Point {
  double x = 0;
  double y = 0;
};

struct Symbol {
  std::string text;  ///< empty: seen, not decoded
  std::array<Point, 4> corners{};
  [[nodiscard]] bool decoded() const { return !text.empty(); }
};

/// Smallest upright rectangle around the corners.
[[nodiscard]] Area2 bounds(const Symbol& symbol);

/// Mean length of the four sides, in pixels.
[[nodiscard]] double side(const Symbol& symbol);

enum class Threshold { by_neighbourhood, fixed };

/// What may be spent on one picture, in steps, so that one made to keep us busy gets no further
/// than a boxful of labels. Common sense, no source; of the photo sets none comes near.
struct Effort {
  /// Threes of corner squares that the library holds against each other, in all: about a second.
  double threes = 4e6;
  int grid_readings = 60;  ///< of a symbol module by module, 20 ms each
};

/// Dark on light, any rotation. Nothing is read, and nothing found, in a picture with more corner
/// squares than 65 labels have, or when the effort is used up.
[[nodiscard]] std::vector<Symbol> symbols_in(const Grey& picture, Threshold threshold,
                                             Effort& effort);
/// The same with an effort of its own.
[[nodiscard]] std::vector<Symbol> symbols_in(const Grey& picture,
                                             Threshold threshold = Threshold::by_neighbourhood);

}  // namespace loopledger::photo
