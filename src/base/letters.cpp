// SPDX-License-Identifier: MIT
#include "base/letters.h"

#include <utf8proc.h>

#include <algorithm>
#include <array>

namespace loopledger {
namespace {

struct Range {
  char32_t first;
  char32_t last;
};

template <std::size_t N>
bool in_one_of(const Range (&ranges)[N], char32_t c) {
  return std::any_of(std::begin(ranges), std::end(ranges),
                     [c](const Range& r) { return c >= r.first && c <= r.last; });
}

// Hebrew, Arabic, Syriac, Thaana, N'Ko, Samaritan, Mandaic; presentation forms; the scripts from
// right to left beyond U+FFFF.
constexpr Range kFromRight[] = {
    {0x0590, 0x08FF}, {0xFB1D, 0xFDFF}, {0xFE70, 0xFEFE}, {0x10800, 0x10FFF}, {0x1E800, 0x1EFFF}};

// Devanagari to Myanmar (Thai, Lao and Tibetan among them), Hangul's single letters, Khmer,
// Mongolian, scripts of South East Asia, Meetei Mayek and its like; Brahmi and its like.
constexpr Range kJoining[] = {{0x0900, 0x109F}, {0x1100, 0x11FF}, {0x1700, 0x18AF},
                              {0x1900, 0x1AAF}, {0x1B00, 0x1C7F}, {0x1CD0, 0x1CFF},
                              {0xA800, 0xAADF}, {0xABC0, 0xABFF}, {0x11000, 0x11FFF}};

constexpr Range kMarks[] = {{0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05BD},  {0x05BF, 0x05BF},
                            {0x05C1, 0x05C2}, {0x064B, 0x065F}, {0x1AB0, 0x1AFF},  {0x1DC0, 0x1DFF},
                            {0x200D, 0x200D}, {0x20D0, 0x20FF}, {0x2DE0, 0x2DFF},  {0xA66F, 0xA67D},
                            {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0x1F3FB, 0x1F3FF}};

constexpr Range kInvisible[] = {
    {0x00AD, 0x00AD}, {0x034F, 0x034F}, {0x061C, 0x061C}, {0x180E, 0x180E}, {0x200B, 0x200F},
    {0x202A, 0x202E}, {0x2060, 0x206F}, {0xFE00, 0xFE0F}, {0xFEFF, 0xFEFF}, {0xE0000, 0xE0FFF}};

/// What is taken off a letter beyond it is no accent, as in Hangul's syllables.
constexpr char32_t kLastWithMarks = 0x1FFF;

constexpr Range kControls[] = {{0x0000, 0x001F}, {0x007F, 0x009F}, {0x2028, 0x2029}};

}  // namespace

bool is_mark(char32_t c) { return c >= 0x0300 && in_one_of(kMarks, c); }
bool runs_from_right(char32_t c) { return c >= 0x0590 && in_one_of(kFromRight, c); }
bool joins_neighbours(char32_t c) { return c >= 0x0900 && in_one_of(kJoining, c); }
bool is_invisible(char32_t c) { return c >= 0x00AD && in_one_of(kInvisible, c); }
bool is_control_code(char32_t c) { return in_one_of(kControls, c); }

char32_t composed(char32_t letter, char32_t mark) {
  if (joins_neighbours(mark)) {
    return 0;
  }
  std::array<utf8proc_int32_t, 2> pair{static_cast<utf8proc_int32_t>(letter),
                                       static_cast<utf8proc_int32_t>(mark)};
  constexpr auto kCompose = static_cast<utf8proc_option_t>(UTF8PROC_COMPOSE | UTF8PROC_STABLE);
  const bool one = utf8proc_normalize_utf32(pair.data(), pair.size(), kCompose) == 1;
  return one ? static_cast<char32_t>(pair[0]) : U'\0';
}

char32_t without_mark(char32_t c) {
  if (c > kLastWithMarks || runs_from_right(c) || joins_neighbours(c)) {
    return 0;
  }
  std::array<utf8proc_int32_t, 8> parts{};
  const utf8proc_ssize_t count = utf8proc_decompose_char(
      static_cast<utf8proc_int32_t>(c), parts.data(), parts.size(), UTF8PROC_DECOMPOSE, nullptr);
  auto letter = static_cast<char32_t>(parts[0]);
  for (utf8proc_ssize_t i = 1; i + 1 < count; ++i) {
    letter = composed(letter, static_cast<char32_t>(parts.at(static_cast<std::size_t>(i))));
  }
  return count > 1 ? letter : U'\0';
}

std::vector<char32_t> composed(std::span<const char32_t> text) {
  std::vector<char32_t> out;
  out.reserve(text.size());
  for (const char32_t c : text) {
    const char32_t one = out.empty() || c < 0x0300 ? U'\0' : composed(out.back(), c);
    if (one != 0) {
      out.back() = one;
    } else {
      out.push_back(c);
    }
  }
  return out;
}

}  // namespace loopledger
