// SPDX-License-Identifier: MIT
#include "photo/ladder.h"

#include <array>

namespace loopledger::photo {
namespace {

Grey twice_sharp(const Grey& p) { return sharpened(enlarged(p, 2), 8, 3); }
Grey unchanged(const Grey& p) { return p; }
Grey twice(const Grey& p) { return enlarged(p, 2); }
Grey even(const Grey& p) { return evened(p, 15); }
Grey three_times(const Grey& p) { return enlarged(p, 3); }
Grey sharp(const Grey& p) { return sharpened(p, 4, 3); }

constexpr std::array kLadder{
    Rung{twice_sharp, 2, Threshold::by_neighbourhood}, Rung{unchanged, 1, Threshold::fixed},
    Rung{twice, 2, Threshold::by_neighbourhood},       Rung{even, 1, Threshold::by_neighbourhood},
    Rung{three_times, 3, Threshold::by_neighbourhood}, Rung{sharp, 1, Threshold::by_neighbourhood},
};

}  // namespace

std::span<const Rung> ladder() { return kLadder; }

std::vector<Symbol> symbols_by(const Rung& rung, const Grey& picture, Effort& effort) {
  std::vector<Symbol> symbols = symbols_in(rung.prepare(picture), rung.threshold, effort);
  for (Symbol& symbol : symbols) {
    for (Point& corner : symbol.corners) {
      corner.x /= rung.scale;
      corner.y /= rung.scale;
    }
  }
  return symbols;
}

}  // namespace loopledger::photo
