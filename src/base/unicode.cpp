// SPDX-License-Identifier: MIT
//
// The UTF-8 half of base/text.h.
#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cstdint>

#include "base/text.h"

namespace loopledger {
namespace {

struct Decoded {
  char32_t point = 0;
  std::size_t length = 0;  ///< 0: ill-formed
};

Decoded decode(std::string_view text, std::size_t at) {
  utf8proc_int32_t point = 0;
  const utf8proc_ssize_t length =
      utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data() + at),
                       static_cast<utf8proc_ssize_t>(text.size() - at), &point);
  return length > 0 ? Decoded{static_cast<char32_t>(point), static_cast<std::size_t>(length)}
                    : Decoded{};
}

void put(std::string& out, char32_t p) {
  std::array<utf8proc_uint8_t, 4> bytes{};
  const utf8proc_ssize_t length =
      utf8proc_encode_char(static_cast<utf8proc_int32_t>(p), bytes.data());
  out.append(bytes.begin(), bytes.begin() + length);
}

bool is_control(char32_t p) {
  const bool c0_c1 = p < 0x20 || (p >= 0x7F && p < 0xA0);
  const bool bidi = p == 0x061C || p == 0x200E || p == 0x200F || (p >= 0x202A && p <= 0x202E) ||
                    (p >= 0x2066 && p <= 0x2069);
  const bool line = p == 0x2028 || p == 0x2029;
  return c0_c1 || bidi || line;
}

int columns_of(char32_t p) {
  const bool none = (p >= 0x0300 && p <= 0x036F) || (p >= 0x1AB0 && p <= 0x1AFF) ||
                    (p >= 0x20D0 && p <= 0x20FF) || (p >= 0xFE00 && p <= 0xFE0F) || p == 0x200B ||
                    p == 0x200D || p == 0xFEFF;
  if (none) {
    return 0;
  }
  const bool wide = (p >= 0x1100 && p <= 0x115F) || (p >= 0x2E80 && p <= 0xA4CF) ||
                    (p >= 0xAC00 && p <= 0xD7A3) || (p >= 0xF900 && p <= 0xFAFF) ||
                    (p >= 0xFE30 && p <= 0xFE6F) || (p >= 0xFF00 && p <= 0xFF60) ||
                    (p >= 0xFFE0 && p <= 0xFFE6) || (p >= 0x1F300 && p <= 0x1FAFF) ||
                    (p >= 0x20000 && p <= 0x3FFFD);
  return wide ? 2 : 1;
}

}  // namespace

std::optional<std::size_t> first_bad_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const Decoded d = decode(text, i);
    if (d.length == 0) {
      return i;
    }
    i += d.length;
  }
  return std::nullopt;
}

std::vector<char32_t> code_points(std::string_view text) {
  std::vector<char32_t> points;
  points.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const Decoded d = decode(text, i);
    points.push_back(d.length == 0 ? U'\uFFFD' : d.point);
    i += d.length == 0 ? 1 : d.length;
  }
  return points;
}

std::string to_utf8(std::span<const char32_t> points) {
  std::string out;
  out.reserve(points.size());
  for (const char32_t p : points) {
    put(out, p);
  }
  return out;
}

std::size_t code_point_count(std::string_view text) { return code_points(text).size(); }

int terminal_width(std::string_view text) {
  int columns = 0;
  for (const char32_t p : code_points(text)) {
    columns += columns_of(p);
  }
  return columns;
}

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const Decoded d = decode(text, i);
    if (d.length == 0) {
      out += fmt::format("\\x{:02x}", static_cast<unsigned char>(text[i]));
      ++i;
      continue;
    }
    if (is_control(d.point)) {
      const auto value = static_cast<std::uint32_t>(d.point);
      out += value < 0x100 ? fmt::format("\\x{:02x}", value) : fmt::format("\\u{:04x}", value);
    } else {
      out += text.substr(i, d.length);
    }
    i += d.length;
  }
  return out;
}

std::string shortened(std::string_view text, int columns) {
  constexpr std::size_t kMarksAColumn = 3;  // thousands of marks on one letter take no columns
  const std::vector<char32_t> points = code_points(text);
  const auto most = static_cast<std::size_t>(std::max(columns, 1)) * (1 + kMarksAColumn);
  if (terminal_width(text) <= columns && points.size() <= most) {
    return std::string(text);
  }
  std::string out;
  int used = 0;
  for (std::size_t i = 0; i < std::min(points.size(), most); ++i) {
    if (used + columns_of(points[i]) > columns - 1) {
      break;
    }
    used += columns_of(points[i]);
    put(out, points[i]);
  }
  return out + "…";
}

}  // namespace loopledger
