// SPDX-License-Identifier: MIT
#include "records/lines.h"

#include <algorithm>

#include "base/text.h"
#include "records/crc32c.h"

namespace loopledger::records {
namespace {

constexpr std::string_view kSumStart = ", sum = \"";
constexpr std::size_t kSumDigits = 8;
constexpr std::string_view kEntrySumEnd = "\" }";
constexpr std::string_view kHeadSumStart = "sum = \"";

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

bool is_blank(char c) { return c == ' ' || c == '\t'; }

bool is_sum(std::string_view text) {
  return text.size() == kSumDigits &&
         text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

/// Index just behind the quoted text that begins at `at`; the end when it is not closed.
std::size_t behind_quoted(std::string_view line, std::size_t at) {
  const char quote = line[at];
  for (std::size_t i = at + 1; i < line.size(); ++i) {
    if (quote == '"' && line[i] == '\\') {
      ++i;
    } else if (line[i] == quote) {
      return i + 1;
    }
  }
  return line.size();
}

/// Nothing, or blanks, or blanks and a comment: a comment right at the brace is not one, so that a
/// line end turned into "#" can't hide the next entry.
bool is_tail(std::string_view rest) {
  return rest.empty() || (is_blank(rest.front()) && says_nothing(rest));
}

bool is_entries_header(std::string_view line) {
  return trimmed(line).starts_with(kEntriesHeader) &&
         is_tail(trimmed(line).substr(kEntriesHeader.size()));
}

void sum_line(std::string& summed, std::string_view line) {
  if (!says_nothing(line)) {
    summed += line;
    summed += '\n';
  }
}

}  // namespace

std::vector<Line> lines_of(std::string_view text) {
  std::vector<Line> lines;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = text.find('\n', begin);
    const bool ended = end != std::string_view::npos;
    std::string_view line = text.substr(begin, ended ? end - begin : end);
    const std::size_t length = line.size();
    if (begin == 0 && line.starts_with(kByteOrderMark)) {
      line.remove_prefix(kByteOrderMark.size());  // an editor put it there; it says nothing
    }
    if (ended && line.ends_with('\r')) {
      line.remove_suffix(1);
    }
    lines.push_back({line, static_cast<int>(lines.size()) + 1, begin, ended});
    begin += length + 1;
  }
  return lines;
}

bool says_nothing(std::string_view line) {
  for (const char c : line) {
    if (!is_blank(c)) {
      return c == '#';
    }
  }
  return true;
}

EntryLine take_apart(std::string_view line) {
  EntryLine parts{line, std::nullopt, {}};
  std::string_view rest;  // behind the first `, sum = "`
  for (std::size_t i = 0; i < line.size() && line[i] != '#';) {
    if (rest.data() == nullptr && line.substr(i).starts_with(kSumStart)) {
      parts.body = line.substr(0, i);
      rest = line.substr(i + kSumStart.size());
    }
    const bool quote = line[i] == '"' || line[i] == '\'';
    i = quote ? behind_quoted(line, i) : i + 1;
    parts.comment = line.substr(std::min(i, line.size()));
  }
  const std::string_view sum = rest.substr(0, kSumDigits);
  if (is_sum(sum) && rest.substr(kSumDigits).starts_with(kEntrySumEnd) &&
      is_tail(rest.substr(kSumDigits + kEntrySumEnd.size()))) {
    parts.sum = sum;
  }
  return parts;
}

bool is_sound(const EntryLine& line) { return line.sum && *line.sum == crc32c_text(line.body); }

std::optional<std::string_view> head_sum_of(std::string_view line) {
  if (!line.starts_with(kHeadSumStart)) {
    return std::nullopt;
  }
  const std::string_view rest = line.substr(kHeadSumStart.size());
  const std::string_view sum = rest.substr(0, kSumDigits);
  const bool whole = is_sum(sum) && rest.substr(kSumDigits).starts_with('"') &&
                     is_tail(rest.substr(kSumDigits + 1));
  return whole ? std::optional(sum) : std::nullopt;
}

std::string head_sum(std::string_view head_before_sum) {
  std::string summed;
  for (const Line& line : lines_of(head_before_sum)) {
    sum_line(summed, line.text);
  }
  return crc32c_text(summed);
}

Layout lay_out(std::string_view text) {
  Layout out;
  out.lines = lines_of(text);
  std::size_t i = 0;
  for (; i < out.lines.size() && !out.entries; ++i) {
    if (is_entries_header(out.lines[i].text) && out.lines[i].ended) {
      out.entries = i;
    } else if (out.lines[i].ended && head_sum_of(out.lines[i].text)) {
      out.sum = i;
    }
  }
  if (!out.entries) {
    i = out.sum ? *out.sum + 1 : out.lines.size();
  }
  out.first_entry = i;
  if (!out.sum) {
    return out;
  }
  const std::string_view before = text.substr(0, out.lines[*out.sum].begin);
  out.head_sound = head_sum_of(out.lines[*out.sum].text) == head_sum(before);
  for (std::size_t k = *out.sum + 1; out.entries && k < *out.entries; ++k) {
    out.head_sound = out.head_sound && says_nothing(out.lines[k].text);
  }
  return out;
}

}  // namespace loopledger::records
