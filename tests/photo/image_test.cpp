// SPDX-License-Identifier: MIT
#include "photo/image.h"

#include <doctest/doctest.h>
#include <png.h>

#include <cstdlib>
#include <random>
#include <string>

#include "photo/picture.h"
#include "photo/scan.h"

using namespace loopledger;
using namespace loopledger::photo;
using namespace loopledger::tag;
using test::jpeg;
using test::JpegForm;
using test::png;
using test::PngForm;

namespace {

/// Large blocks of four greys, a size that is no multiple of 8.
Grey sample() {
  Grey picture(71, 53, 255);
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) {
      picture.at(x, y) = static_cast<std::uint8_t>(255 * ((x / 16 + y / 16) % 4) / 3);
    }
  }
  return picture;
}

/// Largest difference of any pixel; 999 when the sizes differ.
int difference(const Grey& a, const Grey& b) {
  if (a.width != b.width || a.height != b.height) {
    return 999;
  }
  int most = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    most = std::max(most, std::abs(a.pixels[i] - b.pixels[i]));
  }
  return most;
}

Grey decoded(const std::string& bytes) {
  auto picture = read_image(bytes);
  REQUIRE_MESSAGE(picture.ok(), render(picture.diagnostics()));
  CHECK(picture.diagnostics().empty());
  return std::move(picture).value();
}

std::string refusal(const std::string& bytes) {
  const auto picture = read_image(bytes);
  return picture.ok() ? "" : picture.diagnostics().at(0).code;
}

}  // namespace

TEST_CASE("PNG is read in every depth, colour type and interlacing") {
  for (const bool interlaced : {false, true}) {
    for (const int depth : {2, 4, 8, 16}) {
      CHECK(difference(decoded(png(sample(), {PNG_COLOR_TYPE_GRAY, depth, interlaced})),
                       sample()) <= 1);
    }
    for (const int depth : {2, 4, 8}) {
      CHECK(difference(decoded(png(sample(), {PNG_COLOR_TYPE_PALETTE, depth, interlaced})),
                       sample()) <= 1);
    }
    for (const int depth : {8, 16}) {
      CHECK(difference(decoded(png(sample(), {PNG_COLOR_TYPE_RGB, depth, interlaced})), sample()) <=
            1);
    }
  }
  Grey two = sample();
  for (std::uint8_t& pixel : two.pixels) {
    pixel = pixel < 128 ? 0 : 255;
  }
  CHECK(difference(decoded(png(two, {PNG_COLOR_TYPE_GRAY, 1, false})), two) == 0);
}

TEST_CASE("what is transparent in a PNG counts as white paper") {
  Grey on_white = sample();
  for (std::uint8_t& pixel : on_white.pixels) {
    pixel = pixel >= 128 ? 255 : pixel;
  }
  for (const int depth : {8, 16}) {
    for (const int type : {PNG_COLOR_TYPE_GRAY_ALPHA, PNG_COLOR_TYPE_RGB_ALPHA}) {
      CHECK(difference(decoded(png(sample(), {type, depth, false})), on_white) <= 1);
    }
  }
}

TEST_CASE("JPEG is read in grey, colour and inks, baseline and progressive") {
  using Inks = JpegForm::Inks;
  for (const bool progressive : {false, true}) {
    for (const Inks inks : {Inks::grey, Inks::colour, Inks::cmyk_inverted, Inks::cmyk_plain}) {
      CHECK(difference(decoded(jpeg(sample(), {inks, progressive, 98})), sample()) <= 16);
    }
  }
}

TEST_CASE("a file cut short gives its upper part, with a warning") {
  const Grey picture = test::with_noise(Grey(300, 400, 128), 100, 1);
  for (const std::string& whole : {jpeg(picture, {JpegForm::Inks::colour, false, 90}),
                                   png(picture, {PNG_COLOR_TYPE_RGB, 8, false})}) {
    const Grey full = decoded(whole);
    const auto part = read_image(whole.substr(0, whole.size() * 3 / 4));
    REQUIRE(part.ok());
    REQUIRE(part.diagnostics().size() == 1);
    CHECK(part.diagnostics()[0].code == "image-cut");
    CHECK(part.diagnostics()[0].severity == Severity::warning);
    Grey upper = full;
    Grey upper_of_part = *part;
    for (Grey* p : {&upper, &upper_of_part}) {
      p->height = 16;
      p->pixels.resize(p->index(0, 16));
    }
    CHECK(difference(upper, upper_of_part) == 0);
  }
}

TEST_CASE("a file truncated or damaged anywhere never does worse than an error") {
  std::mt19937 random(42);
  const Grey label = test::drawn("TH-01", 3);
  for (const std::string& whole :
       {png(label, {PNG_COLOR_TYPE_GRAY, 1, false}), png(label, {PNG_COLOR_TYPE_PALETTE, 8, true}),
        jpeg(label, {JpegForm::Inks::colour, true, 60}),
        jpeg(label, {JpegForm::Inks::cmyk_inverted, false, 60})}) {
    for (std::size_t length = 0; length < whole.size(); length += 1 + whole.size() / 150) {
      (void)read_image(whole.substr(0, length));
    }
    for (int i = 0; i < 150; ++i) {
      std::string hurt = whole;
      for (unsigned k = 0; k < 1 + random() % 6; ++k) {
        hurt[random() % hurt.size()] = static_cast<char>(random());
      }
      const auto picture = read_image(hurt);
      CHECK((picture.ok() || picture.diagnostics().size() == 1));
    }
  }
}

TEST_CASE("a small file that claims a huge picture is refused before memory is taken") {
  CHECK(refusal(test::png_header(30000, 30000)) == "image-size");
  CHECK(refusal(test::png_header(8001, 8000)) == "image-size");
  CHECK(refusal(test::png_header(0, 10)) == "image-damaged");
  CHECK(refusal(test::png_header(1000, 1000)) == "image-damaged");
  std::string huge = jpeg(Grey(8, 8, 255));
  const auto frame = huge.find("\xff\xc0");
  REQUIRE(frame != std::string::npos);
  for (const std::size_t at : {frame + 5, frame + 7}) {
    huge[at] = '\xff';
    huge[at + 1] = '\x00';
  }
  const auto picture = read_image(huge);
  REQUIRE_FALSE(picture.ok());
  CHECK(picture.diagnostics()[0].message ==
        "expected a picture of at most 64 million pixels, found 65280 x 65280");
}

TEST_CASE("other formats are named, with what to do") {
  const auto message = [](const std::string& bytes) {
    const auto picture = read_image(bytes);
    REQUIRE_FALSE(picture.ok());
    CHECK(picture.diagnostics()[0].code == "image-form");
    CHECK_FALSE(picture.diagnostics()[0].hint.empty());
    return picture.diagnostics()[0].message;
  };
  using namespace std::string_literals;
  CHECK(message("\0\0\0\x18"
                "ftypheic\0\0\0\0mif1heic"s) ==
        "expected a PNG or JPEG image, found a HEIC picture");
  CHECK(message("RIFF\x10\0\0\0WEBPVP8 "s) == "expected a PNG or JPEG image, found WebP");
  CHECK(message("GIF89a\x01\0\x01\0"s) == "expected a PNG or JPEG image, found GIF");
  CHECK(message("II*\0\x08\0\0\0"s) == "expected a PNG or JPEG image, found TIFF");
  CHECK(message("%PDF-1.7\n"s) == "expected a PNG or JPEG image, found a PDF");
  CHECK(message("hello"s) == "expected a PNG or JPEG image, found something else");
  CHECK(refusal("") == "image-empty");
  CHECK(image_kind("th1\nth2\n") == ImageKind::none);
  CHECK(image_kind("BM-01\nBM-02\nBM-03\n") == ImageKind::none);
}
