// SPDX-License-Identifier: MIT
#include "base/diagnostic.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "base/paint.h"
#include "base/text.h"

namespace loopledger {
namespace {

constexpr std::size_t kShownColumns = 160;  ///< a longer source line is cut in the print
constexpr std::size_t kMaxCharacterBytes = 4;

Diagnostic make(Severity severity, std::string code, std::string message, std::string hint,
                Place place) {
  Diagnostic d;
  d.severity = severity;
  d.code = std::move(code);
  d.message = std::move(message);
  d.hint = std::move(hint);
  d.place = std::move(place);
  return d;
}

std::string place_prefix(const Place& place) {
  if (place.file.empty()) {
    return {};
  }
  if (place.line == 0) {
    return fmt::format("{}: ", printable(place.file));
  }
  if (place.column == 0) {
    return fmt::format("{}:{}: ", printable(place.file), place.line);
  }
  return fmt::format("{}:{}:{}: ", printable(place.file), place.line, place.column);
}

/// Bold red and bold magenta are told apart, and read, on light and on dark ground.
std::string painted(Severity severity, Paint paint) {
  if (paint == Paint::plain || severity == Severity::note) {
    return std::string(word(severity));
  }
  return fmt::format("\x1b[1;{}m{}\x1b[0m", severity == Severity::error ? 31 : 35, word(severity));
}

/// The source line and a caret under the place; empty when the place is out of what is shown.
std::string quoted_source(const Diagnostic& d) {
  if (d.source_line.empty() || d.place.line == 0) {
    return {};
  }
  std::vector<char32_t> points = code_points(d.source_line);
  std::string blank;
  const auto column = static_cast<std::size_t>(std::max(1, d.place.column));
  if (points.size() > kShownColumns) {
    points.resize(kShownColumns);
  }
  std::ranges::replace(points, U'\t', U' ');
  for (std::size_t i = 0; i + 1 < column && i < points.size(); ++i) {
    const std::string shown = printable(to_utf8(std::span(&points[i], 1)));
    blank.append(static_cast<std::size_t>(terminal_width(shown)), ' ');
  }
  std::string out = fmt::format("{:>5} | {}\n", d.place.line, printable(to_utf8(points)));
  if (d.place.column > 0 && column <= points.size() + 1) {
    out += fmt::format("      | {}^\n", blank);
  }
  return out;
}

std::string rendered(const Diagnostic& d, Paint paint) {
  std::string out = fmt::format("{}{}: {} [{}]\n", place_prefix(d.place),
                                painted(d.severity, paint), printable(d.message), d.code);
  out += quoted_source(d);
  if (!d.hint.empty()) {
    out += fmt::format("  hint: {}\n", printable(d.hint));
  }
  return out;
}

}  // namespace

std::string_view word(Severity severity) {
  switch (severity) {
    case Severity::note:
      return "note";
    case Severity::warning:
      return "warning";
    case Severity::error:
      break;
  }
  return "error";
}

Diagnostic error(std::string code, std::string message, std::string hint, Place place) {
  return make(Severity::error, std::move(code), std::move(message), std::move(hint),
              std::move(place));
}

Diagnostic warning(std::string code, std::string message, std::string hint, Place place) {
  return make(Severity::warning, std::move(code), std::move(message), std::move(hint),
              std::move(place));
}

Diagnostic note(std::string code, std::string message, std::string hint, Place place) {
  return make(Severity::note, std::move(code), std::move(message), std::move(hint),
              std::move(place));
}

bool has_errors(const Diagnostics& diagnostics) {
  return std::ranges::any_of(diagnostics,
                             [](const auto& d) { return d.severity == Severity::error; });
}

void append(Diagnostics& to, const Diagnostics& more) {
  to.insert(to.end(), more.begin(), more.end());
}

std::string quoted_line(std::string_view line) {
  return std::string(line.substr(0, kShownColumns * kMaxCharacterBytes));
}

void add_source_lines(Diagnostics& diagnostics, const std::string& file, const std::string& text) {
  std::vector<std::string_view> lines;
  const std::string_view all = text;
  for (std::size_t from = 0; from <= all.size();) {
    const std::size_t end = std::min(all.find('\n', from), all.size());
    std::string_view line = all.substr(from, end - from);
    if (line.ends_with('\r')) {
      line.remove_suffix(1);
    }
    lines.push_back(line);
    from = end + 1;
  }
  for (Diagnostic& d : diagnostics) {
    const auto n = static_cast<std::size_t>(std::max(0, d.place.line));
    if (d.place.file == file && n >= 1 && n <= lines.size()) {
      d.source_line = quoted_line(lines[n - 1]);
    }
  }
}

std::string render(const Diagnostic& d) { return rendered(d, Paint::plain); }

std::string render(const Diagnostics& diagnostics) { return render(diagnostics, Paint::plain); }

std::string render(const Diagnostics& diagnostics, Paint paint) {
  std::string out;
  for (const Diagnostic& d : diagnostics) {
    out += rendered(d, paint);
  }
  return out;
}

}  // namespace loopledger
