// SPDX-License-Identifier: MIT
#include "pdf/font_file.h"

#include <array>
#include <cstdint>
#include <fstream>
#include <set>

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

std::string read_some(std::istream& in, std::size_t count) {
  std::string bytes(count, '\0');
  in.read(bytes.data(), static_cast<std::streamsize>(count));
  bytes.resize(static_cast<std::size_t>(in.gcount()));
  return bytes;
}

bool is_whole(std::istream& in, std::uint64_t size) {
  const std::string header = read_some(in, kHeader);
  if (header.size() < kHeader || number_at(header, 0, 4) != kVersion) {
    return false;
  }
  const std::uint32_t tables = number_at(header, 4, 2);
  const std::string entries = read_some(in, tables * kTableEntry);
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
  std::ifstream in(path, std::ios::binary);
  in.seekg(0, std::ios::end);
  const std::streamoff size = in.tellg();
  in.seekg(0);
  if (in && size > 0 && is_whole(in, static_cast<std::uint64_t>(size))) {
    return {};
  }
  return {error("disk-font", "expected a whole TrueType font, could not use " + path,
                "the program brings its fonts in the folder fonts; LOOPLEDGER_DATA names the "
                "folder that holds it")};
}

}  // namespace loopledger::pdf
