// SPDX-License-Identifier: MIT
//
// PNG by libpng: every colour type, depth and interlacing comes out as 8 bit grey over white. Its
// errors are long jumps, so the function that sets the jump holds no object with a destructor:
// everything lives in the job that its caller owns. (The library's simplified interface would do
// without, but version 1.6.39 mixes up rows of interlaced 16 bit pictures.)
#include <png.h>

#include <csetjmp>
#include <cstddef>
#include <cstring>
#include <utility>
#include <vector>

#include "photo/image.h"
#include "photo/image_codecs.h"

namespace loopledger::photo {
namespace {

/// The value that rows never reached by a damaged file keep.
constexpr std::uint8_t kPngUnread = 128;

struct PngJob {
  std::string_view bytes;
  std::size_t at = 0;
  png_structp png = nullptr;
  png_infop info = nullptr;
  std::jmp_buf jump{};
  Grey grey;
  std::vector<png_byte> with_alpha;  ///< grey and alpha: one row, or all of an interlaced picture
  std::int64_t width = 0;
  std::int64_t height = 0;
  int rows_read = 0;  ///< of the first pass
  bool too_large = false;
};

[[noreturn]] void on_error(png_structp png, png_const_charp) {
  std::longjmp(static_cast<PngJob*>(png_get_error_ptr(png))->jump, 1);
}

void on_warning(png_structp, png_const_charp) {}

void read_bytes(png_structp png, png_bytep to, std::size_t length) {
  PngJob& job = *static_cast<PngJob*>(png_get_io_ptr(png));
  if (length > job.bytes.size() - job.at) {
    on_error(png, "");
  }
  std::memcpy(to, job.bytes.data() + job.at, length);
  job.at += length;
}

void over_white(const png_byte* from, std::uint8_t* to, int width) {
  for (int x = 0; x < width; ++x) {
    const int value = *from++;
    const int alpha = *from++;
    to[x] = static_cast<std::uint8_t>((value * alpha + 255 * (255 - alpha)) / 255);
  }
}

void read_png_rows(PngJob& job, int passes, bool alpha) {
  const auto row_bytes = static_cast<std::size_t>(job.grey.width) * 2;
  for (int pass = 0; pass < passes; ++pass) {
    for (int y = 0; y < job.grey.height; ++y) {
      const std::size_t row = passes > 1 ? static_cast<std::size_t>(y) : 0;
      png_byte* between = alpha ? job.with_alpha.data() + row * row_bytes : nullptr;
      png_read_row(job.png, alpha ? between : job.grey.row(y), nullptr);
      if (alpha) {
        over_white(between, job.grey.row(y), job.grey.width);
      }
      job.rows_read = pass > 0 ? job.rows_read : y + 1;
    }
  }
}

/// Everything between the jump's mark and its end. False after an error; what was read by then is
/// in the job.
bool run_png(PngJob& job) {
  if (setjmp(job.jump) != 0) {
    return false;
  }
  job.png = png_create_read_struct(PNG_LIBPNG_VER_STRING, &job, on_error, on_warning);
  job.info = job.png == nullptr ? nullptr : png_create_info_struct(job.png);
  if (job.info == nullptr) {
    return false;
  }
  png_set_read_fn(job.png, &job, read_bytes);
  // Nothing but what makes the picture: for some of the rest the library asks for as much memory as
  // the file claims.
  png_set_keep_unknown_chunks(job.png, PNG_HANDLE_CHUNK_NEVER, nullptr, -1);
  png_read_info(job.png, job.info);
  job.width = png_get_image_width(job.png, job.info);
  job.height = png_get_image_height(job.png, job.info);
  if (job.width * job.height > kMaxPixels) {
    job.too_large = true;
    return false;
  }
  png_set_expand(job.png);
  png_set_scale_16(job.png);
  if ((png_get_color_type(job.png, job.info) & PNG_COLOR_MASK_COLOR) != 0) {
    png_set_rgb_to_gray_fixed(job.png, PNG_ERROR_ACTION_NONE, -1, -1);
  }
  const int passes = png_set_interlace_handling(job.png);
  png_read_update_info(job.png, job.info);
  const bool alpha = png_get_channels(job.png, job.info) == 2;
  job.grey = Grey(static_cast<int>(job.width), static_cast<int>(job.height), kPngUnread);
  if (alpha) {
    job.with_alpha.resize(
        job.grey.size() * 2 / static_cast<std::size_t>(passes > 1 ? 1 : job.height), kPngUnread);
  }
  read_png_rows(job, passes, alpha);
  return true;
}

}  // namespace

Result<Grey> read_png(std::string_view bytes) {
  PngJob job;
  job.bytes = bytes;
  const bool whole = run_png(job);
  png_destroy_read_struct(&job.png, &job.info, nullptr);
  if (job.too_large) {
    return too_large(job.width, job.height);
  }
  if (job.rows_read == 0) {
    return damaged("PNG");
  }
  if (!whole) {
    return {std::move(job.grey), {cut_short()}};
  }
  return std::move(job.grey);
}

}  // namespace loopledger::photo
