// SPDX-License-Identifier: MIT
#include "bench/plain_readers.h"

#if LOOPLEDGER_HAS_ZBAR
#include <zbar.h>  // ahead of ZXing-cpp, whose macros have names of zbar's
#endif

#define ZX_USE_UTF8 1  // before version 2: texts as UTF-8
#include <ZXing/ReadBarcode.h>
#if __has_include(<ZXing/ReaderOptions.h>)
#include <ZXing/ReaderOptions.h>
#endif

namespace loopledger::bench {

std::vector<std::string> texts_by_zxing(const photo::Grey& picture) {
#if __has_include(<ZXing/ReaderOptions.h>)
  ZXing::ReaderOptions options;
#else
  ZXing::DecodeHints options;
#endif
  options.setFormats(ZXing::BarcodeFormat::QRCode);
  const ZXing::ImageView view(picture.pixels.data(), picture.width, picture.height,
                              ZXing::ImageFormat::Lum);
  std::vector<std::string> texts;
  for (const auto& found : ZXing::ReadBarcodes(view, options)) {
    if (found.isValid()) {
      texts.push_back(found.text());
    }
  }
  return texts;
}

#if LOOPLEDGER_HAS_ZBAR

bool has_zbar() { return true; }

std::vector<std::string> texts_by_zbar(const photo::Grey& picture) {
  zbar::zbar_image_scanner_t* const scanner = zbar::zbar_image_scanner_create();
  zbar::zbar_image_scanner_set_config(scanner, zbar::ZBAR_NONE, zbar::ZBAR_CFG_ENABLE, 0);
  zbar::zbar_image_scanner_set_config(scanner, zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_ENABLE, 1);
  zbar::zbar_image_t* const image = zbar::zbar_image_create();
  constexpr unsigned long kGrey = 'Y' | '8' << 8 | '0' << 16 | '0' << 24;
  zbar::zbar_image_set_format(image, kGrey);
  zbar::zbar_image_set_size(image, static_cast<unsigned>(picture.width),
                            static_cast<unsigned>(picture.height));
  zbar::zbar_image_set_data(image, picture.pixels.data(), picture.pixels.size(), nullptr);
  std::vector<std::string> texts;
  if (zbar::zbar_scan_image(scanner, image) > 0) {
    for (const auto* symbol = zbar::zbar_image_first_symbol(image); symbol != nullptr;
         symbol = zbar::zbar_symbol_next(symbol)) {
      texts.emplace_back(zbar::zbar_symbol_get_data(symbol),
                         zbar::zbar_symbol_get_data_length(symbol));
    }
  }
  zbar::zbar_image_destroy(image);
  zbar::zbar_image_scanner_destroy(scanner);
  return texts;
}

#else

bool has_zbar() { return false; }
std::vector<std::string> texts_by_zbar(const photo::Grey&) { return {}; }

#endif

}  // namespace loopledger::bench
