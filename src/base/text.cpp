// SPDX-License-Identifier: MIT
#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace loopledger {
namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
char upper(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

/// Edits (insert, delete, replace, swap of neighbours) that turn a into b.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) {
    d[i][0] = i;
  }
  for (std::size_t j = 0; j <= b.size(); ++j) {
    d[0][j] = j;
  }
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replace = d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, replace});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
      }
    }
  }
  return d[a.size()][b.size()];
}

}  // namespace

std::string lower_ascii(std::string_view text) {
  std::string out(text);
  std::ranges::transform(out, out.begin(), lower);
  return out;
}

std::string upper_ascii(std::string_view text) {
  std::string out(text);
  std::ranges::transform(out, out.begin(), upper);
  return out;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kBlank = " \t\r\n\f\v";
  const auto from = text.find_first_not_of(kBlank);
  if (from == std::string_view::npos) {
    return {};
  }
  return text.substr(from, text.find_last_not_of(kBlank) - from + 1);
}

std::string_view nearest(std::string_view word, std::span<const std::string_view> candidates) {
  constexpr std::size_t kLongestCompared = 64;
  if (word.empty() || word.size() > kLongestCompared) {
    return {};
  }
  const std::string wanted = lower_ascii(word);
  std::string_view best;
  // A third of the word may be wrong, three letters at most, and never all of it.
  std::size_t best_distance = std::min(
      word.size(), 1 + std::max<std::size_t>(1, std::min<std::size_t>(3, word.size() / 3)));
  for (const std::string_view candidate : candidates) {
    const std::size_t distance = edit_distance(wanted, lower_ascii(candidate));
    if (distance < best_distance) {
      best_distance = distance;
      best = candidate;
    }
  }
  return best;
}

std::string either(std::span<const std::string_view> words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) {
      out += i + 1 == words.size() ? " or " : ", ";
    }
    out += words[i];
  }
  return out;
}

std::string how_many(std::size_t count, std::string_view noun) {
  return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

}  // namespace loopledger
