// SPDX-License-Identifier: MIT
//
// The only file that knows how the library reads symbols, from its version 1.4 on.
#include "photo/symbols.h"

#define ZX_USE_UTF8 1  // before version 2: texts as UTF-8
#include <ZXing/ReadBarcode.h>
#if __has_include(<ZXing/ReaderOptions.h>)
#include <ZXing/ReaderOptions.h>
#endif

#include <algorithm>
#include <cmath>
#include <exception>

#include "photo/finder_count.h"

namespace loopledger::photo {
namespace {

#if __has_include(<ZXing/ReaderOptions.h>)
using Options = ZXing::ReaderOptions;
#else
using Options = ZXing::DecodeHints;
#endif

constexpr int kSmallestSymbol = 21;  // modules of version 1: a picture smaller holds no symbol

// Each false corner square that is counted with those of 65 labels costs as much as a true one.
constexpr std::size_t kMostFinders = 260;

/// Whether a picture with so many corner squares may be read; takes it from the effort.
bool is_within(Effort& effort, std::size_t finders) {
  const double n = static_cast<double>(finders);
  const double threes = n * (n - 1) * (n - 2) / 6;
  if (finders >= kMostFinders || threes > effort.threes) {
    return false;
  }
  effort.threes -= threes;
  return true;
}

Options options_for(Threshold threshold) {
  Options options;
  options.setFormats(ZXing::BarcodeFormat::QRCode);
  options.setReturnErrors(true);
  if (threshold == Threshold::fixed) {
    options.setBinarizer(ZXing::Binarizer::FixedThreshold);
  }
  return options;
}

template <class Found>
Symbol symbol_from(const Found& found) {
  Symbol symbol;
  if (found.isValid()) {
    symbol.text = found.text();
  }
  const auto position = found.position();
  for (std::size_t i = 0; i < symbol.corners.size(); ++i) {
    const auto corner = position[i];
    symbol.corners.at(i) = {static_cast<double>(corner.x), static_cast<double>(corner.y)};
  }
  return symbol;
}

}  // namespace

Area2 bounds(const Symbol& symbol) {
  const auto [left, right] =
      std::minmax_element(symbol.corners.begin(), symbol.corners.end(),
                          [](const Point& a, const Point& b) { return a.x < b.x; });
  const auto [top, bottom] =
      std::minmax_element(symbol.corners.begin(), symbol.corners.end(),
                          [](const Point& a, const Point& b) { return a.y < b.y; });
  const int x = static_cast<int>(std::floor(left->x));
  const int y = static_cast<int>(std::floor(top->y));
  return {x, y, static_cast<int>(std::ceil(right->x)) - x + 1,
          static_cast<int>(std::ceil(bottom->y)) - y + 1};
}

double side(const Symbol& symbol) {
  double sum = 0;
  for (std::size_t i = 0; i < symbol.corners.size(); ++i) {
    const Point& a = symbol.corners.at(i);
    const Point& b = symbol.corners.at((i + 1) % symbol.corners.size());
    sum += std::hypot(b.x - a.x, b.y - a.y);
  }
  return sum / 4;
}

std::vector<Symbol> symbols_in(const Grey& picture, Threshold threshold) {
  Effort effort;
  return symbols_in(picture, threshold, effort);
}

std::vector<Symbol> symbols_in(const Grey& picture, Threshold threshold, Effort& effort) {
  std::vector<Symbol> symbols;
  if (std::min(picture.width, picture.height) < kSmallestSymbol ||
      !is_within(effort, finder_count(picture, threshold, kMostFinders))) {
    return symbols;
  }
  try {
    const ZXing::ImageView view(picture.pixels.data(), picture.width, picture.height,
                                ZXing::ImageFormat::Lum);
    for (const auto& found : ZXing::ReadBarcodes(view, options_for(threshold))) {
      symbols.push_back(symbol_from(found));
    }
  } catch (const std::exception&) {
    // A picture that the library gives up on holds nothing that it could read.
  }
  return symbols;
}

}  // namespace loopledger::photo
