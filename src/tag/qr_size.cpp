// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>

#include "base/text.h"
#include "tag/qr.h"

namespace loopledger::tag {
namespace {

/// Data codewords of versions 1 to 9, ISO/IEC 18004 (from memory; the capacities that follow are
/// held against the published ones [qr] and against the encoder by tests/published).
struct Level {
  char name;
  std::array<int, 9> codewords;
};
constexpr std::array kLevels{
    Level{'H', {9, 16, 26, 36, 46, 60, 66, 86, 100}},
    Level{'Q', {13, 22, 34, 48, 62, 76, 88, 110, 132}},
    Level{'M', {16, 28, 44, 64, 86, 108, 124, 154, 182}},
};

constexpr int kModeBits = 4;

bool is_qr_alphanumeric(char c) {
  constexpr std::string_view kOthers = " $%*+-./:";
  return is_digit(c) || (c >= 'A' && c <= 'Z') || kOthers.find(c) != std::string_view::npos;
}

/// Bits of the text in the one mode that holds all of it, with mode and count in versions 1 to 9.
std::size_t bits_of(std::string_view text) {
  const std::size_t n = text.size();
  if (std::all_of(text.begin(), text.end(), is_digit)) {
    constexpr std::array<std::size_t, 3> kRest{0, 4, 7};
    return kModeBits + 10 + 10 * (n / 3) + kRest.at(n % 3);
  }
  if (std::all_of(text.begin(), text.end(), is_qr_alphanumeric)) {
    return kModeBits + 9 + 11 * (n / 2) + 6 * (n % 2);
  }
  return kModeBits + 8 + 8 * n;
}

}  // namespace

std::optional<QrSize> qr_size(std::string_view text) {
  const std::size_t bits = bits_of(text);
  for (std::size_t v = 0; v < kLevels[0].codewords.size(); ++v) {
    for (const Level& level : kLevels) {
      if (bits <= 8 * static_cast<std::size_t>(level.codewords.at(v))) {
        return QrSize{static_cast<int>(v) + 1, level.name};
      }
    }
  }
  return std::nullopt;
}

}  // namespace loopledger::tag
