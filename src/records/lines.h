// SPDX-License-Identifier: MIT
//
// A record's text cut into its parts before any TOML is read: head, [entries] line, lines, torn
// end. One bad line then can't hide the others, and the sums are taken over exactly the bytes that
// records/format.h names.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace loopledger::records {

inline constexpr std::string_view kEntriesHeader = "[entries]";
inline constexpr std::string_view kFirstLine = "# A motor's record.";  ///< how ours begin

/// One line, without its line end.
struct Line {
  std::string_view text;
  int number = 0;         ///< 1-based
  std::size_t begin = 0;  ///< byte offset in the file
  bool ended = true;      ///< false: the file ends without a line end here
};

[[nodiscard]] std::vector<Line> lines_of(std::string_view text);

/// Blank, or nothing but a comment.
[[nodiscard]] bool says_nothing(std::string_view line);

/// An entry's line taken apart, outside of quoted text.
struct EntryLine {
  std::string_view body;           ///< what the sum is over
  std::optional<std::string> sum;  ///< the eight digits as they stand; empty: no sum in its place
  std::string_view comment;        ///< from its # on
};
[[nodiscard]] EntryLine take_apart(std::string_view line);

/// Whether the line's sum is there and right.
[[nodiscard]] bool is_sound(const EntryLine& line);

/// The digits of a head's own sum line `sum = "…"`; empty when the line is none.
[[nodiscard]] std::optional<std::string_view> head_sum_of(std::string_view line);

/// The sum of a head's text up to its sum line.
[[nodiscard]] std::string head_sum(std::string_view head_before_sum);

/// Where the parts of a record are, as indices into its lines.
struct Layout {
  std::vector<Line> lines;
  std::optional<std::size_t> sum;      ///< the head's sum line
  std::optional<std::size_t> entries;  ///< the [entries] line
  std::size_t first_entry = 0;         ///< first line behind the head; may be lines.size()
  bool head_sound = false;             ///< sum there and right, nothing between it and the entries
};
[[nodiscard]] Layout lay_out(std::string_view text);

}  // namespace loopledger::records
