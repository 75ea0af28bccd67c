// SPDX-License-Identifier: MIT
#include "photo/picture.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <numbers>
#include <random>
#include <vector>

#include <jpeglib.h>
#include <png.h>

namespace loopledger::test {

using photo::Grey;

Grey drawn(const std::string& text, int module) {
  const auto symbol = tag::make_qr(text);
  if (!symbol) {
    return {};
  }
  const int quiet = tag::kQuietModules;
  const int side = (symbol->modules + 2 * quiet) * module;
  Grey picture(side, side, 255);
  for (int y = quiet * module; y < side - quiet * module; ++y) {
    for (int x = quiet * module; x < side - quiet * module; ++x) {
      if (symbol->at(x / module - quiet, y / module - quiet)) {
        picture.at(x, y) = 0;
      }
    }
  }
  return picture;
}

void paste(Grey& picture, const Grey& part, int x, int y) {
  for (int row = 0; row < part.height; ++row) {
    for (int column = 0; column < part.width; ++column) {
      const int px = x + column;
      const int py = y + row;
      if (px >= 0 && py >= 0 && px < picture.width && py < picture.height) {
        picture.at(px, py) = part.at(column, row);
      }
    }
  }
}

Grey turned(const Grey& picture, double degrees, std::uint8_t ground) {
  Grey made(picture.width, picture.height, ground);
  const double angle = degrees * std::numbers::pi / 180;
  const double cx = (picture.width - 1) / 2.0;
  const double cy = (picture.height - 1) / 2.0;
  for (int y = 0; y < made.height; ++y) {
    for (int x = 0; x < made.width; ++x) {
      const double fx = cx + std::cos(angle) * (x - cx) + std::sin(angle) * (y - cy);
      const double fy = cy - std::sin(angle) * (x - cx) + std::cos(angle) * (y - cy);
      const int ix = static_cast<int>(std::floor(fx));
      const int iy = static_cast<int>(std::floor(fy));
      if (ix < 0 || iy < 0 || ix + 1 >= picture.width || iy + 1 >= picture.height) {
        continue;
      }
      const double ax = fx - ix;
      const double ay = fy - iy;
      const double top = picture.at(ix, iy) * (1 - ax) + picture.at(ix + 1, iy) * ax;
      const double bottom = picture.at(ix, iy + 1) * (1 - ax) + picture.at(ix + 1, iy + 1) * ax;
      made.at(x, y) = static_cast<std::uint8_t>(std::lround(top * (1 - ay) + bottom * ay));
    }
  }
  return made;
}

Grey with_noise(Grey picture, int amount, unsigned seed) {
  std::mt19937 random(seed);
  const auto range = static_cast<unsigned>(2 * amount + 1);
  for (std::uint8_t& pixel : picture.pixels) {
    const int moved = pixel + static_cast<int>(random() % range) - amount;
    pixel = static_cast<std::uint8_t>(std::clamp(moved, 0, 255));
  }
  return picture;
}

namespace {

void to_string(png_structp png, png_bytep data, png_size_t length) {
  static_cast<std::string*>(png_get_io_ptr(png))
      ->append(reinterpret_cast<const char*>(data), length);
}

/// One row of samples, before they are packed or widened by the library.
std::vector<png_byte> png_row(const Grey& picture, int y, const PngForm& form) {
  std::vector<png_byte> row;
  for (int x = 0; x < picture.width; ++x) {
    const std::uint8_t v = picture.at(x, y);
    const bool clear = (form.color_type & PNG_COLOR_MASK_ALPHA) != 0 && v >= 128;
    const int channels =
        (form.color_type & PNG_COLOR_MASK_COLOR) != 0 && form.color_type != PNG_COLOR_TYPE_PALETTE
            ? 3
            : 1;
    for (int c = 0; c < channels; ++c) {
      const std::uint8_t sample = clear ? 0 : v;
      row.push_back(form.depth < 8 ? static_cast<png_byte>(sample >> (8 - form.depth)) : sample);
      if (form.depth == 16) {
        row.push_back(sample);
      }
    }
    if ((form.color_type & PNG_COLOR_MASK_ALPHA) != 0) {
      row.insert(row.end(), form.depth == 16 ? 2 : 1, clear ? 0 : 255);
    }
  }
  return row;
}

}  // namespace

std::string png(const Grey& picture, const PngForm& form) {
  std::string bytes;
  png_structp file = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(file);
  png_set_write_fn(file, &bytes, to_string, nullptr);
  png_set_IHDR(file, info, static_cast<png_uint_32>(picture.width),
               static_cast<png_uint_32>(picture.height), form.depth, form.color_type,
               form.interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE,
               PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  if (form.color_type == PNG_COLOR_TYPE_PALETTE) {
    std::vector<png_color> palette;
    const int count = 1 << form.depth;
    for (int i = 0; i < count; ++i) {
      const auto v = static_cast<png_byte>(i * 255 / (count - 1));
      palette.push_back({v, v, v});
    }
    png_set_PLTE(file, info, palette.data(), count);
  }
  png_write_info(file, info);
  png_set_packing(file);
  const int passes = png_set_interlace_handling(file);
  for (int pass = 0; pass < passes; ++pass) {
    for (int y = 0; y < picture.height; ++y) {
      png_write_row(file, png_row(picture, y, form).data());
    }
  }
  png_write_end(file, info);
  png_destroy_write_struct(&file, &info);
  return bytes;
}

std::string jpeg(const Grey& picture, const JpegForm& form) {
  using Inks = JpegForm::Inks;
  jpeg_compress_struct info{};
  jpeg_error_mgr errors{};
  info.err = jpeg_std_error(&errors);
  jpeg_create_compress(&info);
  unsigned char* memory = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&info, &memory, &size);
  info.image_width = static_cast<JDIMENSION>(picture.width);
  info.image_height = static_cast<JDIMENSION>(picture.height);
  const bool cmyk = form.inks == Inks::cmyk_inverted || form.inks == Inks::cmyk_plain;
  info.input_components = form.inks == Inks::grey ? 1 : cmyk ? 4 : 3;
  info.in_color_space = form.inks == Inks::grey ? JCS_GRAYSCALE : cmyk ? JCS_CMYK : JCS_RGB;
  jpeg_set_defaults(&info);
  jpeg_set_quality(&info, form.quality, TRUE);
  if (form.progressive) {
    jpeg_simple_progression(&info);
  }
  if (form.inks == Inks::cmyk_plain) {
    info.write_Adobe_marker = FALSE;
  }
  jpeg_start_compress(&info, TRUE);
  std::vector<JSAMPLE> row;
  for (int y = 0; y < picture.height; ++y) {
    row.clear();
    for (int x = 0; x < picture.width; ++x) {
      const std::uint8_t v = picture.at(x, y);
      if (cmyk) {  // all of it in the black ink
        const bool inverted = form.inks == Inks::cmyk_inverted;
        row.insert(row.end(), 3, static_cast<JSAMPLE>(inverted ? 255 : 0));
        row.push_back(static_cast<JSAMPLE>(inverted ? v : 255 - v));
      } else {
        row.insert(row.end(), static_cast<std::size_t>(info.input_components), v);
      }
    }
    JSAMPROW rows = row.data();
    jpeg_write_scanlines(&info, &rows, 1);
  }
  jpeg_finish_compress(&info);
  std::string bytes(reinterpret_cast<const char*>(memory), size);
  jpeg_destroy_compress(&info);
  std::free(memory);  // NOLINT(cppcoreguidelines-no-malloc): the library's own allocation
  return bytes;
}

std::string png_header(std::uint32_t width, std::uint32_t height) {
  Grey dot(1, 1, 0);
  std::string bytes = png(dot);
  const auto put = [&](std::size_t at, std::uint32_t value) {
    for (std::size_t i = 0; i < 4; ++i) {
      bytes[at + i] = static_cast<char>(value >> (24 - 8 * i));
    }
  };
  put(16, width);
  put(20, height);
  std::uint32_t crc = 0xffffffffU;  // over the chunk's name and data, bytes 12 to 28
  for (std::size_t i = 12; i < 29; ++i) {
    crc ^= static_cast<std::uint8_t>(bytes[i]);
    for (int bit = 0; bit < 8; ++bit) {
      crc = (crc & 1U) != 0 ? (crc >> 1U) ^ 0xedb88320U : crc >> 1U;
    }
  }
  put(29, ~crc);
  return bytes;
}

}  // namespace loopledger::test
