// SPDX-License-Identifier: MIT
#include "bench/bare_labels.h"

#include <ZXing/BitMatrix.h>
#include <ZXing/MultiFormatWriter.h>
#include <hpdf.h>

#include <array>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

namespace loopledger::bench {
namespace {

enum class Does : std::uint8_t {
  page,
  fill_grey,
  line_grey,
  line_width,
  line,
  fill_box,
  stroke_box,
  fill_stroke_box,
  text,
  code
};

/// One call in the file, before its text. Numbers are points, from the lower left corner.
struct Call {
  Does does = Does::page;
  std::uint8_t face = 0;
  char level = 'M';
  std::uint8_t unused = 0;
  std::uint32_t text = 0;  ///< bytes that follow
  std::array<float, 4> at{};
};

class File {
 public:
  File(const std::string& path, const char* mode) : file_(std::fopen(path.c_str(), mode)) {
    if (file_ == nullptr) {
      std::exit(1);
    }
  }
  ~File() { std::fclose(file_); }
  File(const File&) = delete;
  File& operator=(const File&) = delete;

  void put(Call call, const std::string& text = {}) {
    call.text = static_cast<std::uint32_t>(text.size());
    std::fwrite(&call, sizeof call, 1, file_);
    std::fwrite(text.data(), 1, text.size(), file_);
  }
  bool next(Call& call, std::string& text) {
    if (std::fread(&call, sizeof call, 1, file_) != 1) {
      return false;
    }
    text.resize(call.text);
    return std::fread(text.data(), 1, text.size(), file_) == text.size();
  }

 private:
  std::FILE* file_;
};

float pt(double mm) { return static_cast<float>(mm * 72 / 25.4); }

// ---- noting
// ------------------------------------------------------------------------------------

/// Colours and widths are set on change only, as write_pdf does.
class Noter {
 public:
  Noter(File& file, const page::Page& page, const page::FontMetrics& metrics)
      : file_(file), metrics_(metrics), height_(page.height) {
    put({.does = Does::page, .at = {pt(page.width), pt(page.height)}});
  }
  [[nodiscard]] std::size_t count() const { return count_; }

  void operator()(const page::Line& line) {
    set(Does::line_grey, line_grey_, line.grey);
    set(Does::line_width, width_, line.width);
    put({.does = Does::line, .at = {pt(line.x1), up(line.y1), pt(line.x2), up(line.y2)}});
  }
  void operator()(const page::Polyline&) { std::exit(1); }  // labels have none
  void operator()(const page::Box& box) {
    const bool fill = box.fill_grey >= 0;
    const bool outline = box.line_width > 0;
    if (fill) {
      set(Does::fill_grey, fill_grey_, box.fill_grey);
    }
    if (outline) {
      set(Does::line_grey, line_grey_, box.line_grey);
      set(Does::line_width, width_, box.line_width);
    }
    put({.does = fill && outline ? Does::fill_stroke_box
                 : fill          ? Does::fill_box
                                 : Does::stroke_box,
         .at = {pt(box.x), up(box.y + box.h), pt(box.w), pt(box.h)}});
  }
  void operator()(const page::Text& text) {
    set(Does::fill_grey, fill_grey_, text.grey);
    const double wide = metrics_.width_mm(text.utf8, text.face, text.size_pt);
    const double x = text.align == page::Align::left     ? text.x
                     : text.align == page::Align::centre ? text.x - wide / 2
                                                         : text.x - wide;
    put({.does = Does::text,
         .face = static_cast<std::uint8_t>(text.face),
         .at = {static_cast<float>(text.size_pt), pt(x), up(text.y)}},
        text.utf8);
  }
  void operator()(const page::Qr& qr) {
    set(Does::fill_grey, fill_grey_, 0);
    put({.does = Does::code, .level = qr.symbol.level, .at = {pt(qr.x), up(qr.y), pt(qr.module)}},
        qr.text);
  }

 private:
  [[nodiscard]] float up(double y) const { return pt(height_ - y); }
  void put(const Call& call, const std::string& text = {}) {
    file_.put(call, text);
    ++count_;
  }
  void set(Does does, double& now, double to) {
    if (now != to) {
      now = to;
      put({.does = does, .at = {does == Does::line_width ? pt(to) : static_cast<float>(to)}});
    }
  }

  File& file_;
  const page::FontMetrics& metrics_;
  double height_;
  double fill_grey_ = -1;
  double line_grey_ = -1;
  double width_ = -1;
  std::size_t count_ = 0;
};

// ---- making them
// -------------------------------------------------------------------------------

ZXing::BitMatrix symbol_of(const std::string& text, char level) {
  return ZXing::MultiFormatWriter(ZXing::BarcodeFormat::QRCode)
      .setMargin(0)
      .setEccLevel(level == 'H'   ? 8
                   : level == 'Q' ? 6
                                  : 4)
      .encode(text, 0, 0);
}

void draw_code(HPDF_Page page, const Call& call, const std::string& text) {
  const ZXing::BitMatrix symbol = symbol_of(text, call.level);
  const float module = call.at[2];
  HPDF_Page_GSave(page);
  HPDF_Page_Concat(page, module, 0, 0, -module, call.at[0], call.at[1]);
  for (int row = 0; row < symbol.height(); ++row) {
    for (int column = 0; column < symbol.width();) {
      int end = column;
      while (end < symbol.width() && symbol.get(end, row)) {
        ++end;
      }
      if (end > column) {
        HPDF_Page_Rectangle(page, static_cast<float>(column), static_cast<float>(row),
                            static_cast<float>(end - column), 1);
      }
      column = end + 1;
    }
  }
  HPDF_Page_Fill(page);
  HPDF_Page_GRestore(page);
}

void draw(HPDF_Page page, const Call& call, const std::string& text,
          const std::array<HPDF_Font, 4>& faces) {
  const auto& at = call.at;
  switch (call.does) {
    case Does::page:
      break;
    case Does::fill_grey:
      HPDF_Page_SetGrayFill(page, at[0]);
      break;
    case Does::line_grey:
      HPDF_Page_SetGrayStroke(page, at[0]);
      break;
    case Does::line_width:
      HPDF_Page_SetLineWidth(page, at[0]);
      break;
    case Does::line:
      HPDF_Page_MoveTo(page, at[0], at[1]);
      HPDF_Page_LineTo(page, at[2], at[3]);
      HPDF_Page_Stroke(page);
      break;
    case Does::fill_box:
    case Does::stroke_box:
    case Does::fill_stroke_box:
      HPDF_Page_Rectangle(page, at[0], at[1], at[2], at[3]);
      (call.does == Does::fill_box     ? HPDF_Page_Fill
       : call.does == Does::stroke_box ? HPDF_Page_Stroke
                                       : HPDF_Page_FillStroke)(page);
      break;
    case Does::text:
      HPDF_Page_BeginText(page);
      HPDF_Page_SetFontAndSize(page, faces.at(call.face), at[0]);
      HPDF_Page_TextOut(page, at[1], at[2], text.c_str());
      HPDF_Page_EndText(page);
      break;
    case Does::code:
      draw_code(page, call, text);
      break;
  }
}

std::size_t bytes_of(HPDF_Doc doc) {
  HPDF_SaveToStream(doc);
  std::string all;
  all.reserve(HPDF_GetStreamSize(doc));
  HPDF_ResetStream(doc);
  std::vector<HPDF_BYTE> chunk(64U << 10);
  for (HPDF_STATUS status = HPDF_OK; status == HPDF_OK;) {
    auto size = static_cast<HPDF_UINT32>(chunk.size());
    status = HPDF_ReadFromStream(doc, chunk.data(), &size);
    all.append(chunk.begin(), chunk.begin() + size);
  }
  return all.size();
}

}  // namespace

std::size_t note_calls(const page::Document& document, const page::FontMetrics& metrics,
                       const std::string& path) {
  File file(path, "wb");
  std::size_t count = 0;
  for (const page::Page& page : document.pages) {
    Noter noter(file, page, metrics);
    for (const page::Item& item : page.items) {
      std::visit(noter, item);
    }
    count += noter.count();
  }
  return count;
}

std::vector<double> draw_bare(const std::string& path, const pdf::Fonts& fonts) {
  File file(path, "rb");
  HPDF_Doc doc = HPDF_New(nullptr, nullptr);
  HPDF_UseUTFEncodings(doc);
  HPDF_SetCompressionMode(doc, HPDF_COMP_ALL);
  HPDF_SetPagesConfiguration(doc, 40);
  std::array<HPDF_Font, 4> faces{};
  for (const page::Face face : {page::Face::label, page::Face::label_bold}) {
    const char* name = HPDF_LoadTTFontFromFile(doc, fonts.of(face).name.c_str(), HPDF_TRUE);
    faces.at(static_cast<std::size_t>(face)) = HPDF_GetFont(doc, name, "UTF-8");
  }
  HPDF_Page page = nullptr;
  Call call;
  std::string text;
  while (file.next(call, text)) {
    if (call.does == Does::page) {
      page = HPDF_AddPage(doc);
      HPDF_Page_SetWidth(page, call.at[0]);
      HPDF_Page_SetHeight(page, call.at[1]);
    }
    draw(page, call, text, faces);
  }
  const std::size_t bytes = bytes_of(doc);
  if (HPDF_GetError(doc) != HPDF_OK) {
    std::exit(1);
  }
  HPDF_Free(doc);
  return {static_cast<double>(bytes)};
}

std::vector<double> encode_alone(const std::string& path) {
  File file(path, "rb");
  Call call;
  std::string text;
  double count = 0;
  while (file.next(call, text)) {
    if (call.does == Does::code) {
      count += symbol_of(text, call.level).width() > 0 ? 1 : 0;
    }
  }
  return {count};
}

}  // namespace loopledger::bench
