// SPDX-License-Identifier: MIT
#include "terminal/text_table.h"

#include <algorithm>
#include <cassert>
#include <numeric>

#include "base/quantity_text.h"
#include "base/text.h"

namespace loopledger::terminal {
namespace {

constexpr int kGap = 2;

std::string cell(const std::string& text, int width, TextTable::Side side) {
  const std::string shown = shortened(text, width);
  const auto blanks = static_cast<std::size_t>(std::max(0, width - terminal_width(shown)));
  return side == TextTable::Side::left ? shown + std::string(blanks, ' ')
                                       : std::string(blanks, ' ') + shown;
}

/// Bytes of the longest beginning that is at most `columns` wide.
std::size_t fitting(std::string_view text, int columns) {
  const auto goes_on = [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; };
  std::size_t at = 0;
  while (at < text.size()) {
    std::size_t next = at + 1;
    while (next < text.size() && goes_on(text[next])) {
      ++next;
    }
    columns -= terminal_width(text.substr(at, next - at));
    if (columns < 0) {
      break;
    }
    at = next;
  }
  return at;
}

}  // namespace

std::string wrapped(std::string_view text, int hang) {
  std::string out;
  std::string indent;
  while (true) {
    const std::size_t fits = fitting(text, kTerminalColumns - static_cast<int>(indent.size()));
    if (fits == text.size()) {
      return out + indent + std::string(text) + '\n';
    }
    const std::size_t words = text.find_first_not_of(' ');
    const std::size_t blank = text.rfind(' ', fits);
    const std::size_t cut = blank == std::string_view::npos || blank < words ? fits : blank;
    out += indent + std::string(text.substr(0, text.find_last_not_of(' ', cut - 1) + 1)) + '\n';
    text.remove_prefix(std::min(text.find_first_not_of(' ', cut), text.size()));
    indent = std::string(static_cast<std::size_t>(hang), ' ');
  }
}

std::string gram_cell(const std::optional<Mass>& mass, Mass scale_step) {
  return mass ? grams(*mass, scale_step) : "-";
}

void TextTable::row(std::vector<std::string> cells) {
  assert(cells.size() == columns_.size());
  for (std::string& c : cells) {
    c = printable(c);
  }
  rows_.push_back(std::move(cells));
}

TextTable TextTable::without_empty_columns() const {
  TextTable table({});
  table.rows_.resize(rows_.size());
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    const bool empty = std::ranges::all_of(rows_, [c](const auto& r) { return r[c].empty(); });
    if (empty && !rows_.empty()) {
      continue;
    }
    table.columns_.push_back(columns_[c]);
    for (std::size_t r = 0; r < rows_.size(); ++r) {
      table.rows_[r].push_back(rows_[r][c]);
    }
  }
  return table;
}

std::string TextTable::text() const { return without_empty_columns().set(); }

std::string TextTable::set() const {
  std::vector<int> widths;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    int width = terminal_width(columns_[c].head);
    for (const auto& r : rows_) {
      width = std::max(width, terminal_width(r[c]));
    }
    widths.push_back(width);
  }
  const auto total = [&widths] {
    return std::accumulate(widths.begin(), widths.end(), 0) +
           kGap * static_cast<int>(widths.size() - 1);
  };
  // The widest column that may shrink gives up one column at a time.
  while (total() > kTerminalColumns) {
    std::size_t widest = columns_.size();
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      const bool may = columns_[c].least > 0 && widths[c] > columns_[c].least;
      if (may && (widest == columns_.size() || widths[c] > widths[widest])) {
        widest = c;
      }
    }
    if (widest == columns_.size()) {
      break;
    }
    --widths[widest];
  }
  std::string out;
  const auto line = [&](auto cell_text) {
    std::string text;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      text += std::string(c == 0 ? 0 : kGap, ' ') + cell(cell_text(c), widths[c], columns_[c].side);
    }
    text.erase(text.find_last_not_of(' ') + 1);
    out += text + "\n";
  };
  line([&](std::size_t c) { return columns_[c].head; });
  line([&](std::size_t c) { return std::string(static_cast<std::size_t>(widths[c]), '-'); });
  for (const auto& r : rows_) {
    line([&](std::size_t c) { return r[c]; });
  }
  return out;
}

}  // namespace loopledger::terminal
