// SPDX-License-Identifier: MIT
//
// JPEG by libjpeg. Its errors are long jumps, so the function that sets the jump holds no object
// with a destructor: everything lives in the job that its caller owns.
#include <csetjmp>
#include <cstddef>
#include <cstdio>
#include <utility>
#include <vector>

#include <jpeglib.h>

#include "photo/image.h"
#include "photo/image_codecs.h"

namespace loopledger::photo {
namespace {

constexpr std::uint8_t kJpegUnread = 128;
constexpr int kMaxScans = 100;  // a hostile progressive file asks for thousands of full passes

struct JpegJob {
  jpeg_decompress_struct info{};
  jpeg_error_mgr errors{};
  jpeg_progress_mgr progress{};
  std::jmp_buf jump{};
  Grey grey;
  std::vector<JSAMPLE> row;  ///< one CMYK row
  bool too_large = false;
  int rows_read = 0;
};

JpegJob& job_of(j_common_ptr info) { return *static_cast<JpegJob*>(info->client_data); }

[[noreturn]] void on_error(j_common_ptr info) { std::longjmp(job_of(info).jump, 1); }

void on_message(j_common_ptr info, int level) {
  if (level < 0) {
    ++info->err->num_warnings;
  }
}

void no_output(j_common_ptr) {}

void on_progress(j_common_ptr info) {
  if (job_of(info).info.input_scan_number > kMaxScans) {
    on_error(info);
  }
}

/// One row of inks to grey. `inverted`: 255 is no ink, as the marker of the program that began
/// writing such files says.
void take_inks(const JpegJob& job, std::uint8_t* to, bool inverted) {
  const auto light = [&](JSAMPLE ink) { return static_cast<unsigned>(inverted ? ink : 255 - ink); };
  for (JDIMENSION x = 0; x < job.info.output_width; ++x) {
    const JSAMPLE* inks = job.row.data() + std::size_t{x} * 4;
    const unsigned luma =
        (299 * light(inks[0]) + 587 * light(inks[1]) + 114 * light(inks[2])) / 1000;
    to[x] = static_cast<std::uint8_t>(luma * light(inks[3]) / 255);
  }
}

void read_jpeg_rows(JpegJob& job) {
  jpeg_decompress_struct& info = job.info;
  const bool inks = info.out_color_space == JCS_CMYK;
  while (info.output_scanline < info.output_height) {
    std::uint8_t* to = job.grey.row(static_cast<int>(info.output_scanline));
    JSAMPROW row = inks ? job.row.data() : to;
    if (jpeg_read_scanlines(&info, &row, 1) != 1) {
      return;
    }
    if (inks) {
      take_inks(job, to, info.saw_Adobe_marker != 0);
    }
    job.rows_read = static_cast<int>(info.output_scanline);
  }
}

/// Everything between the jump's mark and its end. Returns false after an error; the rows read by
/// then are in the job.
bool run_jpeg(JpegJob& job, std::string_view bytes) {
  jpeg_decompress_struct& info = job.info;
  if (setjmp(job.jump) != 0) {
    return false;
  }
  jpeg_create_decompress(&info);
  info.progress = &job.progress;
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-const-cast): older headers take a plain pointer
  jpeg_mem_src(&info,
               const_cast<unsigned char*>(reinterpret_cast<const unsigned char*>(bytes.data())),
               static_cast<unsigned long>(bytes.size()));
  jpeg_read_header(&info, TRUE);
  if (std::int64_t{info.image_width} * info.image_height > kMaxPixels) {
    job.too_large = true;
    return false;
  }
  const bool inks = info.jpeg_color_space == JCS_CMYK || info.jpeg_color_space == JCS_YCCK;
  info.out_color_space = inks ? JCS_CMYK : JCS_GRAYSCALE;
  info.dct_method = JDCT_ISLOW;
  jpeg_start_decompress(&info);
  job.grey =
      Grey(static_cast<int>(info.output_width), static_cast<int>(info.output_height), kJpegUnread);
  if (inks) {
    job.row.resize(std::size_t{info.output_width} * 4);
  }
  read_jpeg_rows(job);
  jpeg_finish_decompress(&info);
  return true;
}

}  // namespace

Result<Grey> read_jpeg(std::string_view bytes) {
  JpegJob job;
  job.info.err = jpeg_std_error(&job.errors);
  job.errors.error_exit = on_error;
  job.errors.emit_message = on_message;
  job.errors.output_message = no_output;
  job.progress.progress_monitor = on_progress;
  job.info.client_data = &job;
  const bool whole = run_jpeg(job, bytes);
  const bool warned = job.errors.num_warnings > 0;
  const std::int64_t width = job.info.image_width;
  const std::int64_t height = job.info.image_height;
  jpeg_destroy_decompress(&job.info);
  if (job.too_large) {
    return too_large(width, height);
  }
  if (job.rows_read == 0) {
    return damaged("JPEG");
  }
  if (!whole || warned) {
    return {std::move(job.grey), {cut_short()}};
  }
  return std::move(job.grey);
}

}  // namespace loopledger::photo
