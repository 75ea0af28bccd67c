// SPDX-License-Identifier: MIT
#include "fuzz/whole_png.h"

#include <cstdint>

namespace loopledger::fuzz {
namespace {

constexpr std::size_t kSignature = 8;
constexpr std::size_t kLengthAndName = 8;
constexpr std::size_t kChecksum = 4;

std::uint32_t number_at(std::string_view bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    value = value << 8U | static_cast<unsigned char>(bytes[at + i]);
  }
  return value;
}

/// CRC-32 of ISO 3309, as PNG has it.
std::uint32_t crc32(std::string_view bytes) {
  std::uint32_t crc = 0xffffffffU;
  for (const char byte : bytes) {
    crc ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) {
      crc = (crc & 1U) != 0 ? (crc >> 1U) ^ 0xedb88320U : crc >> 1U;
    }
  }
  return ~crc;
}

}  // namespace

std::string with_right_checksums(std::string_view bytes) {
  std::string out(bytes);
  if (!bytes.starts_with("\x89PNG\r\n\x1a\n")) {
    return out;
  }
  std::size_t at = kSignature;
  while (at + kLengthAndName + kChecksum <= bytes.size()) {
    const std::size_t length = number_at(bytes, at);
    if (length > bytes.size() - at - kLengthAndName - kChecksum) {
      break;
    }
    const std::size_t end = at + kLengthAndName + length;
    const std::uint32_t crc = crc32(bytes.substr(at + 4, length + 4));
    for (std::size_t i = 0; i < kChecksum; ++i) {
      out[end + i] = static_cast<char>(crc >> (24 - 8 * i));
    }
    at = end + kChecksum;
  }
  return out;
}

}  // namespace loopledger::fuzz
