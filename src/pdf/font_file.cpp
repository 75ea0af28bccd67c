// SPDX-License-Identifier: MIT
#include "pdf/font_file.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_TRUETYPE_TABLES_H

#include <array>
#include <cstdint>
#include <set>
#include <vector>

namespace loopledger::pdf {
namespace {

constexpr std::size_t kHeader = 12;  // bytes; OpenType 1.9, "Organization of an OpenType Font"
constexpr std::size_t kTableEntry = 16;
constexpr std::uint32_t kVersion = 0x00010000;  // TrueType outlines
constexpr std::uint32_t kMostTables = 64;
constexpr std::array kNeeded{"cmap", "glyf", "head", "hhea", "hmtx", "loca", "maxp"};

std::uint32_t number_at(const std::string& bytes, std::size_t at, int count) {
  std::uint32_t value = 0;
  for (int i = 0; i < count; ++i) {
    value = value << 8U | static_cast<unsigned char>(bytes[at + static_cast<std::size_t>(i)]);
  }
  return value;
}

/// A part of the file, empty when it is not all there.
std::string part_of(FT_Face face, std::size_t from, std::size_t count) {
  std::vector<FT_Byte> bytes(count);
  FT_ULong length = count;
  constexpr FT_ULong kWholeFile = 0;  // for a table's name
  if (count == 0 || FT_Load_Sfnt_Table(face, kWholeFile, static_cast<FT_Long>(from), bytes.data(),
                                       &length) != 0) {
    return {};
  }
  return {bytes.begin(), bytes.end()};
}

bool is_whole(FT_Face face) {
  const std::uint64_t size = face->stream->size;
  const std::string header = part_of(face, 0, kHeader);
  if (header.size() < kHeader || number_at(header, 0, 4) != kVersion) {
    return false;
  }
  const std::uint32_t tables = number_at(header, 4, 2);
  const std::string entries = part_of(face, kHeader, tables * kTableEntry);
  if (tables > kMostTables || entries.size() < tables * kTableEntry) {
    return false;
  }
  std::set<std::string> names;
  for (std::size_t at = 0; at < entries.size(); at += kTableEntry) {
    names.insert(entries.substr(at, 4));
    const std::uint64_t offset = number_at(entries, at + 8, 4);
    if (offset + number_at(entries, at + 12, 4) > size) {
      return false;
    }
  }
  for (const char* name : kNeeded) {
    if (names.count(name) == 0) {
      return false;
    }
  }
  return true;
}

}  // namespace

Diagnostics font_problems(const std::string& path) {
  FT_Library library = nullptr;
  FT_Face face = nullptr;
  const bool good = FT_Init_FreeType(&library) == 0 &&
                    FT_New_Face(library, path.c_str(), 0, &face) == 0 && is_whole(face);
  if (face != nullptr) {
    FT_Done_Face(face);
  }
  if (library != nullptr) {
    FT_Done_FreeType(library);
  }
  if (good) {
    return {};
  }
  return {error("disk-font", "expected a whole TrueType font, could not use " + path,
                "the program brings its fonts in the folder fonts; LOOPLEDGER_DATA names the "
                "folder that holds it")};
}

}  // namespace loopledger::pdf
