// SPDX-License-Identifier: MIT
#include "pdf/font_file.h"

#include <array>
#include <cstdint>
#include <set>
#include <string_view>

#include "pdf/font_face.h"

namespace loopledger::pdf {
namespace {

constexpr std::size_t kHeader = 12;  // bytes; OpenType 1.9, "Organization of an OpenType Font"
constexpr std::size_t kTableEntry = 16;
constexpr std::uint32_t kVersion = 0x00010000;  // TrueType outlines
constexpr std::uint32_t kMostTables = 64;
constexpr std::array kNeeded{"cmap", "glyf", "head", "hhea", "hmtx", "loca", "maxp"};

std::uint32_t number_at(std::string_view bytes, std::size_t at, int count) {
  std::uint32_t value = 0;
  for (int i = 0; i < count; ++i) {
    value = value << 8U | static_cast<unsigned char>(bytes[at + static_cast<std::size_t>(i)]);
  }
  return value;
}

bool is_whole(std::string_view file) {
  if (file.size() < kHeader || number_at(file, 0, 4) != kVersion) {
    return false;
  }
  const std::uint32_t tables = number_at(file, 4, 2);
  const std::string_view entries = file.substr(kHeader, tables * kTableEntry);
  if (tables > kMostTables || entries.size() < tables * kTableEntry) {
    return false;
  }
  std::set<std::string_view> names;
  for (std::size_t at = 0; at < entries.size(); at += kTableEntry) {
    names.insert(entries.substr(at, 4));
    const std::uint64_t offset = number_at(entries, at + 8, 4);
    if (offset + number_at(entries, at + 12, 4) > file.size()) {
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

Diagnostics font_problems(const FontFile& file) {
  if (is_whole(*file.bytes) && FontFace(file).get() != nullptr) {
    return {};
  }
  return {bad_font("expected a whole TrueType font, could not use", file)};
}

Diagnostic bad_font(const std::string& trouble, const FontFile& file) {
  return error("disk-font", trouble + " " + file.name,
               "the program brings its fonts in the folder fonts; LOOPLEDGER_DATA names the folder "
               "that holds it");
}

}  // namespace loopledger::pdf
