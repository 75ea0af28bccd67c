// SPDX-License-Identifier: MIT
#include "tag/id_slips.h"

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>

#include "tag/id.h"

namespace loopledger::tag {
namespace {

constexpr std::string_view kDigits = "0123456789";
constexpr std::size_t kNumberMaxDigits = 4;

/// The row is an id as printed, hyphens left out, with its right check.
std::optional<MotorId> id_in(const std::string& row, std::size_t stem_size) {
  const std::string body = row.substr(0, row.size() - 1);
  int number = 0;
  for (const char c : body.substr(stem_size)) {
    if (c < '0' || c > '9') {
      return std::nullopt;
    }
    number = number * 10 + (c - '0');
  }
  const MotorId id{body.substr(0, stem_size), number};
  if (number < 1 || with_check(id) != id.stem + "-" + body.substr(stem_size) + "-" + row.back()) {
    return std::nullopt;
  }
  return id;
}

}  // namespace

std::vector<MotorId> slips_from(const std::string& stem, const std::string& number, char check) {
  if (!is_stem(stem) || number.empty() || number.size() > kNumberMaxDigits) {
    return {};
  }
  std::vector<MotorId> found;
  const std::string typed = stem + number + check;
  const auto try_row = [&](const std::string& row) {
    const auto id = id_in(row, stem.size());
    if (id && std::find(found.begin(), found.end(), *id) == found.end()) {
      found.push_back(*id);
    }
  };
  const auto try_characters = [&](std::size_t place, std::string_view characters) {
    std::string row = typed;
    for (const char c : characters) {
      row[place] = c;
      try_row(row);
    }
  };
  try_characters(typed.size() - 1, kIdAlphabet);
  for (std::size_t i = typed.size() - 1; i > 0; --i) {
    std::string row = typed;
    std::swap(row[i - 1], row[i]);
    try_row(row);
  }
  for (std::size_t i = typed.size() - 1; i > stem.size(); --i) {
    try_characters(i - 1, kDigits);
  }
  for (std::size_t i = stem.size(); i > 0; --i) {
    try_characters(i - 1, kIdAlphabet);
  }
  return found;
}

}  // namespace loopledger::tag
