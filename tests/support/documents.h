// SPDX-License-Identifier: MIT
//
// The documents of the tree, as tests hold them against the program.
#pragma once

#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace loopledger::test {

/// A file of the tree by its path from the top; empty when there is none.
inline std::string tree_text(const std::string& path) {
  std::ifstream in(std::string(LOOPLEDGER_SOURCE_DIR) + "/" + path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    lines.push_back(line);
  }
  return lines;
}

/// What stands in backticks in a text.
inline std::set<std::string> quoted_in(const std::string& text) {
  static const std::regex kQuoted("`([^`]+)`");
  std::set<std::string> words;
  for (auto at = std::sregex_iterator(text.begin(), text.end(), kQuoted);
       at != std::sregex_iterator(); ++at) {
    words.insert((*at)[1]);
  }
  return words;
}

/// The rows of all tables below headings that begin with `heading`, heads and rules left out.
inline std::vector<std::string> table_rows(const std::string& text, const std::string& heading) {
  std::vector<std::string> rows;
  bool here = false;
  bool head = true;
  for (const std::string& line : lines_of(text)) {
    if (line.starts_with("#")) {
      here = line.substr(line.find_first_not_of("# ")).starts_with(heading);
    }
    const bool row = line.starts_with("|");
    if (here && row && !head && !line.starts_with("|---")) {
      rows.push_back(line);
    }
    head = !row;
  }
  return rows;
}

/// The first cell of a row.
inline std::string first_cell(const std::string& row) {
  return row.substr(1, row.find('|', 1) - 1);
}

}  // namespace loopledger::test
