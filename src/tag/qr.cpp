// SPDX-License-Identifier: MIT
//
// The only file that knows how the library writes symbols. Two interfaces of it exist: the older
// MultiFormatWriter, and CreateBarcode, which newer builds may have instead.
#include "tag/qr.h"

#if __has_include(<ZXing/MultiFormatWriter.h>)
#include <ZXing/BitMatrix.h>
#include <ZXing/MultiFormatWriter.h>
#define LOOPLEDGER_QR_BY_WRITER 1
#elif __has_include(<ZXing/CreateBarcode.h>)
#include <ZXing/CreateBarcode.h>
#define LOOPLEDGER_QR_BY_WRITER 0
#endif

#include <algorithm>
#include <cstdint>
#include <exception>
#include <string>

namespace loopledger::tag {
namespace {

/// A picture of a symbol as the library gives it: any margin, any number of dots a module.
struct Dots {
  int width = 0;
  int height = 0;
  std::vector<bool> dark;
  [[nodiscard]] bool at(int x, int y) const {
    return dark[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                static_cast<std::size_t>(x)];
  }
};

template <class IsDark>
Dots dots_of(int width, int height, const IsDark& is_dark) {
  Dots dots{width, height, {}};
  dots.dark.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      dots.dark.push_back(is_dark(x, y));
    }
  }
  return dots;
}

#if LOOPLEDGER_QR_BY_WRITER
int writer_level(char level) { return level == 'H' ? 8 : level == 'Q' ? 6 : 4; }

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wdeprecated-declarations"
Dots encode(const std::string& text, char level) {
  const ZXing::BitMatrix bits = ZXing::MultiFormatWriter(ZXing::BarcodeFormat::QRCode)
                                    .setMargin(0)
                                    .setEccLevel(writer_level(level))
                                    .encode(text, 0, 0);
  return dots_of(bits.width(), bits.height(), [&](int x, int y) { return bits.get(x, y); });
}
#pragma GCC diagnostic pop
#else
Dots encode(const std::string& text, char level) {
  const auto barcode = ZXing::CreateBarcodeFromText(
      text, ZXing::CreatorOptions(ZXing::BarcodeFormat::QRCode, std::string("ecLevel=") + level));
  const ZXing::ImageView image = barcode.symbol();
  return dots_of(image.width(), image.height(),
                 [&](int x, int y) { return *image.data(x, y) != 0; });
}
#endif

/// The symbol without margin at one dot a module. The first row begins with a finder pattern's
/// seven dark modules, which gives the dots of one module. Modules 0: no symbol was found.
QrSymbol symbol_of(const Dots& dots, char level) {
  QrSymbol symbol;
  symbol.level = level;
  const auto first = std::find(dots.dark.begin(), dots.dark.end(), true);
  if (first == dots.dark.end()) {
    return symbol;
  }
  const int start = static_cast<int>(first - dots.dark.begin());
  const int left = start % dots.width;
  const int top = start / dots.width;
  const int run = static_cast<int>(std::find(first, dots.dark.end(), false) - first);
  const int scale = run / 7;
  const int side = dots.width - 2 * left;
  if (scale < 1 || side % scale != 0 || (side / scale - 17) % 4 != 0 || top + side > dots.height) {
    return symbol;
  }
  symbol.modules = side / scale;
  symbol.version = (symbol.modules - 17) / 4;
  for (int row = 0; row < symbol.modules; ++row) {
    for (int column = 0; column < symbol.modules; ++column) {
      symbol.dark.push_back(dots.at(left + column * scale, top + row * scale));
    }
  }
  return symbol;
}

QrSymbol encoded(const std::string& text, char level) {
  return symbol_of(encode(text, level), level);
}

/// Beyond the table of qr_size: the highest level that does not need a larger symbol than M.
QrSymbol encoded_by_trial(const std::string& text) {
  QrSymbol best = encoded(text, 'M');
  for (const char level : {'Q', 'H'}) {
    try {
      QrSymbol higher = encoded(text, level);
      if (higher.modules != best.modules) {
        break;
      }
      best = std::move(higher);
    } catch (const std::exception&) {
      break;  // too long at this level
    }
  }
  return best;
}

}  // namespace

Result<QrSymbol> make_qr(std::string_view text) {
  if (text.empty()) {
    return error("qr-empty", "expected a text for the QR code, found none");
  }
  if (!std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; })) {
    return error("qr-text", "expected a text of plain ASCII characters for the QR code",
                 "write other characters of an address as %XX");
  }
  const std::string copy(text);
  try {
    const auto size = qr_size(text);
    QrSymbol symbol = size ? encoded(copy, size->level) : encoded_by_trial(copy);
    if (symbol.modules > 0 && (!size || symbol.version == size->version)) {
      return symbol;
    }
    return error("qr-encoder", "the QR library gave no symbol of the expected size");
  } catch (const std::exception&) {
    return error(
        "qr-too-long",
        "a text of " + std::to_string(text.size()) + " characters is too long for a QR code",
        "use a shorter address");
  }
}

}  // namespace loopledger::tag
