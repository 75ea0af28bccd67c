// SPDX-License-Identifier: MIT
#include "plan/syntax_hint.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <vector>

#include "base/text.h"

namespace loopledger::plan {
namespace {

constexpr const char* kQuotes =
    "text and quantities stand in double quotes, as in mass = \"1.5 g\"";
constexpr int kColumns = 40;  // of a key or a table's name in a hint

/// What can be told of a line without reading it as TOML.
struct Seen {
  std::string_view line;  ///< trimmed, without its comment
  std::string_view key;   ///< before the first = or :, where there is one
  char behind_key = 0;    ///< '=', ':' or nothing
  bool open_quote = false;
  int square = 0;  ///< opened and not closed
  int brace = 0;
};

Seen look_at(std::string_view line) {
  Seen seen;
  std::size_t end = line.size();
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (c == '"' && (i == 0 || line[i - 1] != '\\')) {
      seen.open_quote = !seen.open_quote;
    } else if (!seen.open_quote && c == '#') {
      end = i;
      break;
    } else if (!seen.open_quote) {
      seen.square += c == '[' ? 1 : c == ']' ? -1 : 0;
      seen.brace += c == '{' ? 1 : c == '}' ? -1 : 0;
      if (seen.behind_key == 0 && (c == '=' || c == ':')) {
        seen.behind_key = c;
        seen.key = trimmed(line.substr(0, i));
      }
    }
  }
  seen.line = trimmed(line.substr(0, end));
  return seen;
}

std::vector<std::string_view> lines_up_to(std::string_view text, int last) {
  std::vector<std::string_view> lines;
  while (static_cast<int>(lines.size()) < last) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    lines.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

std::string quoted(std::string_view text) { return printable(shortened(text, kColumns)); }

/// The key of the line stands in the same table before; 0 when it does not.
int first_line_of(const std::vector<std::string_view>& lines, std::string_view key) {
  for (std::size_t i = lines.size() - 1; i-- > 0;) {
    const Seen seen = look_at(lines[i]);
    if (seen.line.starts_with('[') && seen.behind_key == 0) {
      return 0;
    }
    if (seen.key == key) {
      return static_cast<int>(i) + 1;
    }
  }
  return 0;
}

std::string twice_hint(const std::vector<std::string_view>& lines) {
  const Seen seen = look_at(lines.back());
  if (seen.line == "[motors]") {
    return "each group of motors begins with [[motors]], two brackets on each side";
  }
  if (seen.line.starts_with('[')) {
    return fmt::format("{} stands twice: write its keys below the first, or give it another name",
                       quoted(seen.line));
  }
  const int first = first_line_of(lines, seen.key);
  return first > 0 ? fmt::format("`{}` is in line {} already: take one of them out",
                                 quoted(seen.key), first)
                   : "the key stands twice in this table: take one of them out";
}

/// A line that left a quote or a bracket open, from the last one up.
std::string open_hint(const std::vector<std::string_view>& lines) {
  for (std::size_t i = lines.size(); i-- > 0;) {
    const Seen seen = look_at(lines[i]);
    const std::string line = fmt::format("line {}", i + 1);
    if (seen.open_quote) {
      return fmt::format("a quote is missing in {}: {}", line, kQuotes);
    }
    if (seen.line.starts_with('[') && seen.behind_key == 0 && seen.square != 0) {
      return seen.line.starts_with("[[") || seen.line.ends_with("]]")
                 ? fmt::format("a bracket is missing in {}: [[motors]] has two on each side", line)
                 : fmt::format("a bracket is missing in {}: [strips.tan] has one on each side",
                               line);
    }
    if (seen.square != 0 || seen.brace != 0) {
      const int off = seen.square != 0 ? seen.square : seen.brace;
      const char* sign = seen.square != 0 ? off > 0 ? "]" : "[" : off > 0 ? "}" : "{";
      return fmt::format("a {} is missing in {}, as in samples = [[\"500 mm\", \"1.310 g\"]]", sign,
                         line);
    }
    if (i + 1 < lines.size() && !seen.line.empty()) {
      break;  // whole, so that what is wrong is not above it
    }
  }
  return {};
}

}  // namespace

std::string syntax_hint(std::string_view text, int line, std::string_view reason) {
  const std::vector<std::string_view> lines = lines_up_to(text, std::max(1, line));
  const Seen seen = look_at(lines.back());
  if (reason.find("redefin") != std::string_view::npos) {
    return twice_hint(lines);
  }
  if (seen.behind_key == ':' && !seen.line.starts_with('[')) {
    return fmt::format("write = for the colon: {} = …", quoted(seen.key));
  }
  if (std::string open = open_hint(lines); !open.empty()) {
    return open;
  }
  if (seen.line.starts_with('[') && seen.behind_key == 0) {
    return "a table's name of more than letters, digits, - and _ stands in quotes: [strips.\"red "
           "tan\"]";
  }
  if (seen.behind_key == 0) {
    return "expected a line such as count = 4, or a table such as [bench]";
  }
  return kQuotes;
}

}  // namespace loopledger::plan
