// SPDX-License-Identifier: MIT
//
// Plain tables and lines for the terminal, at most 100 columns wide.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.h"

namespace loopledger::terminal {

inline constexpr int kTerminalColumns = 100;

/// "1.497" as the scale shows it, "-" when it is not known.
[[nodiscard]] std::string gram_cell(const std::optional<Mass>& mass, Mass scale_step);

/// The text with a line end; what is wider than the terminal goes on below, set in by `hang`
/// columns. Broken between words, and within one that is wider than a line. @pre printable, and
/// without line ends
[[nodiscard]] std::string wrapped(std::string_view text, int hang = 4);

/// Columns as wide as their widest cell.
class TextTable {
 public:
  enum class Side { left, right };
  struct Column {
    std::string head;
    Side side = Side::left;
    int least = 0;  ///< may be shortened to this many columns when the table is too wide; 0: never
  };
  explicit TextTable(std::vector<Column> columns) : columns_(std::move(columns)) {}

  /// @pre one cell per column
  void row(std::vector<std::string> cells);
  [[nodiscard]] bool empty() const { return rows_.empty(); }
  /// Head, rule and rows, each ending in a newline. Cells are made printable; a column in which
  /// every cell is empty is left out.
  [[nodiscard]] std::string text() const;

 private:
  [[nodiscard]] TextTable without_empty_columns() const;
  [[nodiscard]] std::string set() const;

  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace loopledger::terminal
