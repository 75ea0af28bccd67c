// SPDX-License-Identifier: MIT
#include "pdf/haru.h"

#include <fmt/format.h>
#include <hpdf.h>

#include <vector>

#include "pdf/own_mark.h"
#include "pdf/tounicode.h"

namespace loopledger::pdf {
namespace {

constexpr std::size_t kChunk = 64U << 10;

void replace_to_unicode(HPDF_Doc doc, HPDF_Font font) {
  const std::string map = identity_to_unicode();
  HPDF_Dict stream = HPDF_DictStream_New(doc->mmgr, doc->xref);
  if (stream == nullptr) {
    return;  // recorded by the callback
  }
  stream->filter = HPDF_STREAM_FILTER_FLATE_DECODE;
  const std::vector<HPDF_BYTE> bytes(map.begin(), map.end());
  HPDF_Stream_Write(stream->stream, bytes.data(), static_cast<HPDF_UINT>(bytes.size()));
  HPDF_Dict_Add(font, "ToUnicode", stream);
}

/// The font's name in the document. nullptr: the library has noted why.
const char* load_font(HPDF_Doc doc, const std::string& file) {
  const auto* bytes = reinterpret_cast<const HPDF_BYTE*>(file.data());
  const auto size = static_cast<HPDF_UINT>(file.size());
#if HPDF_VERSION_ID >= 20405
  return HPDF_LoadTTFontFromMemory(doc, bytes, size, HPDF_TRUE);
#else
  HPDF_Stream stream = HPDF_MemStream_New(doc->mmgr, size);
  if (stream == nullptr) {
    return nullptr;
  }
  if (HPDF_Stream_Write(stream, bytes, size) != HPDF_OK) {
    HPDF_Stream_Free(stream);
    return nullptr;
  }
  HPDF_FontDef font = HPDF_TTFontDef_Load(doc->mmgr, stream, HPDF_TRUE);  // takes the stream
  if (font == nullptr) {
    return nullptr;
  }
  if (HPDF_FontDef known = HPDF_Doc_FindFontDef(doc, font->base_font); known != nullptr) {
    HPDF_FontDef_Free(font);
    return known->base_font;
  }
  // A tag of its own for each font, as the library gives them to fonts from files.
  std::string tag = "HPDFAA";
  tag.back() = static_cast<char>(tag.back() + static_cast<char>(doc->fontdef_list->count));
  if (HPDF_List_Add(doc->fontdef_list, font) != HPDF_OK) {
    HPDF_FontDef_Free(font);
    return nullptr;
  }
  HPDF_TTFontDef_SetTagName(font, tag.data());
  return font->base_font;
#endif
}

}  // namespace

Haru::Haru(const Memory& memory)
    : doc_(HPDF_NewEx(&Haru::record, memory.take, memory.give_back, 0, this)) {}

bool Haru::failed() const {
  return doc_ == nullptr || first_error_ != 0 || HPDF_GetError(doc_) != HPDF_OK;
}

Haru::~Haru() {
  if (doc_ != nullptr) {
    HPDF_Free(doc_);
  }
}

void Haru::record(HPDF_STATUS error_no, HPDF_STATUS detail_no, void* self) {
  auto* haru = static_cast<Haru*>(self);
  if (haru->first_error_ == 0) {
    haru->first_error_ = error_no;
    haru->first_detail_ = detail_no;
  }
}

Diagnostic Haru::problem(const std::string& what) const {
  const bool noted = first_error_ == 0 && doc_ != nullptr;
  const unsigned long number = noted ? HPDF_GetError(doc_) : first_error_;
  const unsigned long detail = noted ? HPDF_GetErrorDetail(doc_) : first_detail_;
  return error("pdf-write", fmt::format("could not {} (libharu error 0x{:04X}, detail {})", what,
                                        number, detail));
}

HPDF_Font Haru::font(page::Face face, const Fonts& fonts, const std::string& utf8) {
  HPDF_Font& font = fonts_[static_cast<std::size_t>(face)];
  std::optional<GlyphParts>& parts = parts_[static_cast<std::size_t>(face)];
  if (font == nullptr) {
    const char* name = load_font(doc_, *fonts.of(face).bytes);
    font = name == nullptr ? nullptr : HPDF_GetFont(doc_, name, "UTF-8");
    if (font != nullptr) {
      replace_to_unicode(doc_, font);
      parts.emplace(fonts.of(face));
    }
  }
  if (font != nullptr) {
    // A character that was measured is embedded.
    const std::string more = parts->behind(utf8);
    const std::vector<HPDF_BYTE> bytes(more.begin(), more.end());
    HPDF_Font_TextWidth(font, bytes.data(), static_cast<HPDF_UINT>(bytes.size()));
  }
  return font;
}

Result<std::string> Haru::bytes() {
  // Not HPDF_SaveToFile: it does not notice a full disk.
  if (HPDF_SaveToStream(doc_) != HPDF_OK || failed()) {
    return problem("finish the PDF");
  }
  const std::size_t whole = HPDF_GetStreamSize(doc_);
  std::string all;
  all.reserve(whole);
  HPDF_ResetStream(doc_);
  std::vector<HPDF_BYTE> chunk(kChunk);
  while (all.size() < whole) {
    auto size = static_cast<HPDF_UINT32>(chunk.size());
    const HPDF_STATUS status = HPDF_ReadFromStream(doc_, chunk.data(), &size);
    // The last bytes come together with the news that they are.
    if ((status != HPDF_OK && status != HPDF_STREAM_EOF) || size == 0) {
      return problem("read the finished PDF");
    }
    all.append(chunk.begin(), chunk.begin() + size);
  }
  if (!put_mark(all)) {
    return error("pdf-write", "could not mark the finished PDF as the program's own");
  }
  return all;
}

}  // namespace loopledger::pdf
