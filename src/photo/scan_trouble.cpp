// SPDX-License-Identifier: MIT
#include "photo/scan_trouble.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <string>

#include "photo/grey_ops.h"

namespace loopledger::photo {
namespace {

// Chosen on degraded pictures of labels; common sense, no source.
constexpr int kSmallSide = 80;           // pixels: less can't hold a label and its surroundings
constexpr double kModulesTypical = 29;   // version 3: what most labels carry
constexpr double kFarPixels = 1.6;       // pixels a module that the ladder needs
constexpr int kDarkWhite = 70;           // the lightest parts are darker than this
constexpr int kFaintContrast = 40;       // between dark and light parts
constexpr double kGlareInSymbol = 0.72;  // a symbol is about half dark
constexpr double kGlareShare = 0.04;     // of a picture whose paper is not that light itself
constexpr double kBlurModules = 0.8;     // an edge as wide as this share of a module
constexpr double kBlurPixels = 5;        // the same where no symbol was seen
constexpr std::size_t kEnough = 1'000'000;

using Histogram = std::array<std::size_t, 256>;

Histogram histogram_of(const Grey& picture) {
  Histogram counts{};
  for (const std::uint8_t pixel : picture.pixels) {
    ++counts.at(pixel);
  }
  return counts;
}

/// The value that `share` of the counted values do not exceed.
int quantile(const Histogram& counts, double share) {
  std::size_t total = 0;
  for (const std::size_t count : counts) {
    total += count;
  }
  const auto wanted = static_cast<std::size_t>(share * static_cast<double>(total));
  std::size_t sum = 0;
  for (std::size_t value = 0; value < counts.size(); ++value) {
    sum += counts.at(value);
    if (sum > wanted) {
      return static_cast<int>(value);
    }
  }
  return 255;
}

double share_between(const Grey& picture, int low, int high) {
  const auto in = std::count_if(picture.pixels.begin(), picture.pixels.end(),
                                [&](std::uint8_t v) { return v >= low && v <= high; });
  return picture.size() == 0 ? 0 : static_cast<double>(in) / static_cast<double>(picture.size());
}

/// Width in pixels of the steepest edges: contrast over the largest steps between neighbours.
double edge_width(const Grey& picture, int contrast) {
  Histogram steps{};
  for (int y = 0; y + 1 < picture.height; ++y) {
    for (int x = 0; x + 1 < picture.width; ++x) {
      const int v = picture.at(x, y);
      const int step =
          std::max(std::abs(picture.at(x + 1, y) - v), std::abs(picture.at(x, y + 1) - v));
      ++steps.at(static_cast<std::size_t>(step));
    }
  }
  return static_cast<double>(contrast) / std::max(quantile(steps, 0.995), 1);
}

/// The largest place that looked like a symbol, if any.
const Symbol* place_in(const Scan& scan) {
  const auto largest =
      std::max_element(scan.unread.begin(), scan.unread.end(),
                       [](const Symbol& a, const Symbol& b) { return side(a) < side(b); });
  return largest == scan.unread.end() ? nullptr : &*largest;
}

bool has_glare(const Grey& part, bool is_symbol) {
  const double white = share_between(part, 250, 255);
  if (is_symbol) {
    return white > kGlareInSymbol;
  }
  // Paper that is not white itself, with patches that are.
  return white > kGlareShare && share_between(part, 120, 235) > 0.25;
}

std::string reason(Trouble trouble) {
  switch (trouble) {
    case Trouble::small:
      return "the picture is very small; give the photo as the camera took it";
    case Trouble::far:
      return "the code is very small in the picture; go closer, or take fewer bags at once";
    case Trouble::dark:
      return "the picture is too dark; take it in better light";
    case Trouble::faint:
      return "there is little contrast in it; take it in better light, and out of the bag if the "
             "plastic is dull";
    case Trouble::glare:
      return "light is reflected from the bag; tilt it, smooth it, and take it without flash";
    case Trouble::blurred:
      return "the picture looks blurred; hold still, and let the camera focus from a hand's "
             "breadth away";
    default:
      return "take the code flat, in even light, and so near that it fills a third of the picture";
  }
}

}  // namespace

Trouble trouble_in(const Grey& picture, const Scan& scan) {
  if (std::min(picture.width, picture.height) < kSmallSide) {
    return Trouble::small;
  }
  const Symbol* place = place_in(scan);
  Grey part = place != nullptr ? crop(picture, bounds(*place)) : picture;
  if (place != nullptr && side(*place) < kFarPixels * kModulesTypical) {
    return Trouble::far;
  }
  if (place == nullptr && part.size() > kEnough) {
    part = reduced(part, static_cast<int>(std::ceil(std::sqrt(static_cast<double>(part.size()) /
                                                              static_cast<double>(kEnough)))));
  }
  const Histogram values = histogram_of(part);
  const int white = quantile(values, 0.98);
  const int contrast = white - quantile(values, 0.02);
  if (white < kDarkWhite) {
    return Trouble::dark;
  }
  if (contrast < kFaintContrast) {
    return Trouble::faint;
  }
  if (has_glare(part, place != nullptr)) {
    return Trouble::glare;
  }
  const double blurred_from =
      place != nullptr ? std::max(kBlurModules * side(*place) / kModulesTypical, 2.0) : kBlurPixels;
  return edge_width(part, contrast) > blurred_from ? Trouble::blurred : Trouble::unknown;
}

Diagnostic why_unread(const Grey& picture, const Scan& scan) {
  std::string message = "no label was read";
  if (scan.crowded && scan.other_layout.empty()) {
    return error("none-label",
                 message + fmt::format(": there is more in it that looks like the corner of a code "
                                       "than {} labels have",
                                       kBoxful),
                 "take the code alone, so near that it fills a third of the picture");
  }
  if (!scan.other_layout.empty()) {
    message += ", but one of a layout that this version can't read";
  } else if (!scan.foreign.empty()) {
    message += ", only codes that are not labels of ours";
  } else if (!scan.unread.empty()) {
    message += ", though something like a code was seen";
  }
  return error("none-label", std::move(message),
               scan.other_layout.empty() ? reason(trouble_in(picture, scan))
                                         : "update the program, or look the motor up by its id");
}

}  // namespace loopledger::photo
