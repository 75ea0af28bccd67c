// SPDX-License-Identifier: MIT
//
// Photos of one bag label each, as a phone might take them: a drawn label degraded in each way of
// Ill at 4 strengths, all from a seed. The ladder of readings was chosen on seed 1; the floors that
// tests and benchmarks hold are measured on others.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "photo/grey.h"

namespace loopledger::test {

enum class Ill : std::uint8_t {
  wrinkles,
  combined,  ///< turned, tilted, small, blurred, faint, noisy and compressed, a little of each
  small,
  blur,
  motion,
  glare,
  jpeg,
  uneven_light,
  faint,
  noise,
  covered,
  tilted,
  turned,
};
inline constexpr int kIlls = 13;
inline constexpr int kStrengths = 4;

[[nodiscard]] const char* name_of(Ill ill);

struct Photo {
  std::string text;  ///< what the label says
  Ill ill = Ill::wrinkles;
  int strength = 0;  ///< 0 to 3
  photo::Grey picture;
};

/// Calls `see` with every photo of the set: labels x kIlls x kStrengths.
void each_photo(std::uint64_t seed, int labels, const std::function<void(const Photo&)>& see);

/// A sheet of 3 x 8 labels as a phone of 12 megapixels sees it: tilted, a little blurred and noisy.
struct SheetPhoto {
  std::vector<std::string> texts;
  photo::Grey picture;
};
[[nodiscard]] SheetPhoto photo_of_sheet(std::uint64_t seed);

/// Pictures that hold no label: text, stripes, grids, noise, other people's symbols.
void each_picture_without_label(std::uint64_t seed, int count,
                                const std::function<void(const photo::Grey&)>& see);

}  // namespace loopledger::test
