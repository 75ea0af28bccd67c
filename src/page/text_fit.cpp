// SPDX-License-Identifier: MIT
#include "page/text_fit.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/letters.h"
#include "base/text.h"

namespace loopledger::page {
namespace {

constexpr double kSizeStep = 0.25;  // points; finer steps can't be told apart
constexpr double kRoom = 1e-6;      // mm; a text that fills the width exactly fits
constexpr char32_t kJoiner = 0x200D;

/// Where a text may be parted: the ends of its letters in bytes, each with its marks.
std::vector<std::size_t> letter_ends(std::string_view text) {
  std::vector<std::size_t> ends;
  std::size_t at = 0;
  char32_t before = 0;
  for (const char32_t c : code_points(text)) {
    if (at > 0 && !is_mark(c) && before != kJoiner) {
      ends.push_back(at);
    }
    at += to_utf8(std::span(&c, 1)).size();
    before = c;
  }
  if (at > 0) {
    ends.push_back(at);
  }
  return ends;
}

/// The bytes of the longest start of `text` that is at most `width` wide; at least one letter.
std::size_t start_that_fits(const std::string& text, double width, Face face, double size,
                            const FontMetrics& metrics) {
  const std::vector<std::size_t> ends = letter_ends(text);
  std::size_t low = 0;
  std::size_t high = ends.empty() ? 0 : ends.size() - 1;
  while (low < high) {
    const std::size_t middle = (low + high + 1) / 2;
    if (metrics.width_mm(text.substr(0, ends[middle]), face, size) <= width + kRoom) {
      low = middle;
    } else {
      high = middle - 1;
    }
  }
  return ends.empty() ? 0 : ends[low];
}

std::string with_ellipsis(std::string text, double width, Face face, double size,
                          const FontMetrics& metrics) {
  const std::string dots = "…";
  const double room = std::max(0.0, width - metrics.width_mm(dots, face, size));
  text.resize(start_that_fits(text, room, face, size, metrics));
  return std::string(trimmed(text)) + dots;
}

/// Adds `word` to the last line, or to a new one; breaks it when it is wider than a whole line.
void add_word(std::vector<std::string>& lines, std::string word, double width, Face face,
              double size, const FontMetrics& metrics) {
  const auto fits = [&](const std::string& line) {
    return metrics.width_mm(line, face, size) <= width + kRoom;
  };
  if (!lines.empty() && fits(lines.back() + " " + word)) {
    lines.back() += " " + word;
    return;
  }
  while (!fits(word)) {
    const std::size_t end = start_that_fits(word, width, face, size, metrics);
    if (end == 0 || end >= word.size()) {
      break;
    }
    lines.push_back(word.substr(0, end));
    word.erase(0, end);
  }
  lines.push_back(std::move(word));
}

/// A unit behind its number: "9.89 mg" is not broken between the two.
bool is_unit(std::string_view word) {
  constexpr std::array kUnits{"mg", "g", "mm", "in", "%", "turns", "gf·cm", "ozf·in"};
  while (!word.empty() &&
         (word.back() == ',' || word.back() == '.' || word.back() == ';' || word.back() == ')')) {
    word.remove_suffix(1);
  }
  return std::find(kUnits.begin(), kUnits.end(), word) != kUnits.end();
}

/// Where the first word of `text` ends, a unit behind a number taken along.
std::size_t end_of_word(std::string_view text) {
  const std::size_t end = std::min(text.find(' '), text.size());
  if (end == 0 || end == text.size() || text[end - 1] < '0' || text[end - 1] > '9') {
    return end;
  }
  const std::size_t next = std::min(text.find(' ', end + 1), text.size());
  return is_unit(text.substr(end + 1, next - end - 1)) ? next : end;
}

}  // namespace

std::vector<std::string> wrap(std::string_view utf8, double width_mm, Face face, double size_pt,
                              const FontMetrics& metrics) {
  std::vector<std::string> lines;
  std::string_view rest = trimmed(utf8);
  while (!rest.empty()) {
    const std::size_t end = end_of_word(rest);
    if (end > 0) {
      add_word(lines, std::string(rest.substr(0, end)), width_mm, face, size_pt, metrics);
    }
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return lines;
}

FittedText fit_text(std::string_view utf8, double width_mm, const FitRules& rules,
                    const FontMetrics& metrics) {
  FittedText fitted{.lines = {std::string(utf8)}, .size_pt = rules.size_pt};
  const double wide = metrics.width_mm(fitted.lines[0], rules.face, rules.size_pt);
  if (wide <= width_mm + kRoom) {
    return fitted;
  }
  const double needed = std::floor(rules.size_pt * width_mm / wide / kSizeStep) * kSizeStep;
  fitted.size_pt = std::max(needed, std::min(rules.smallest_pt, rules.size_pt));
  if (needed >= fitted.size_pt) {
    return fitted;
  }
  fitted.lines = wrap(utf8, width_mm, rules.face, fitted.size_pt, metrics);
  const auto most = static_cast<std::size_t>(std::max(rules.max_lines, 1));
  if (fitted.lines.size() > most) {
    fitted.cut = true;
    fitted.lines.resize(most);
    fitted.lines.back() =
        with_ellipsis(fitted.lines.back(), width_mm, rules.face, fitted.size_pt, metrics);
  }
  return fitted;
}

}  // namespace loopledger::page
