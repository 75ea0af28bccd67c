// SPDX-License-Identifier: MIT
//
// Diagnostics: what a stage found wrong with its input, as values. A stage reports all that it can
// find, and one function prints them all, so that every message has the same shape:
//
//   plan.toml:12:10: error: expected a length such as "300 mm", found "300 g" [quantity-unit]
//      12 | loop = "300 g"
//         |        ^
//     hint: mm, cm, m, in or ft; write for example "12.5 mm"
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace loopledger {

enum class Severity { note, warning, error };

/// "note", "warning", "error": in print and in JSON.
[[nodiscard]] std::string_view word(Severity severity);

/// A place in a text file. Line and column are 1-based; columns count code points. Line 0 = the
/// file as a whole; an empty file = no place at all.
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
};

struct Diagnostic {
  Severity severity = Severity::error;
  std::string code;     ///< stable id such as "quantity-unit": people grep for it, tests name it
  std::string message;  ///< what was expected and what was found
  std::string hint;     ///< what to type or do; may be empty
  Place place;
  std::string source_line;  ///< the line of `place`, see quoted_line; may be empty
};

using Diagnostics = std::vector<Diagnostic>;

[[nodiscard]] Diagnostic error(std::string code, std::string message, std::string hint = {},
                               Place place = {});
[[nodiscard]] Diagnostic warning(std::string code, std::string message, std::string hint = {},
                                 Place place = {});
[[nodiscard]] Diagnostic note(std::string code, std::string message, std::string hint = {},
                              Place place = {});

[[nodiscard]] bool has_errors(const Diagnostics& diagnostics);
void append(Diagnostics& to, const Diagnostics& more);

/// As much of a line, without its line end, as is shown of it: a thousand faults in one line of a
/// megabyte must not hold it a thousand times.
[[nodiscard]] std::string quoted_line(std::string_view line);

/// Fills `source_line` of each diagnostic that points into `file`, from the file's text.
void add_source_lines(Diagnostics& diagnostics, const std::string& file, const std::string& text);

/// The diagnostic as printed, ending in a newline. Control characters in quoted input are made
/// visible, so that a hostile file can't drive the terminal.
[[nodiscard]] std::string render(const Diagnostic& diagnostic);
[[nodiscard]] std::string render(const Diagnostics& diagnostics);

}  // namespace loopledger
