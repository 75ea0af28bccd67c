// SPDX-License-Identifier: MIT
#include "base/number_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include "base/quantity_text.h"
#include "base/text.h"

namespace loopledger {
namespace {

constexpr std::array<std::pair<std::string_view, double>, 15> kVulgar{{{"¼", 1.0 / 4},
                                                                       {"½", 1.0 / 2},
                                                                       {"¾", 3.0 / 4},
                                                                       {"⅓", 1.0 / 3},
                                                                       {"⅔", 2.0 / 3},
                                                                       {"⅕", 1.0 / 5},
                                                                       {"⅖", 2.0 / 5},
                                                                       {"⅗", 3.0 / 5},
                                                                       {"⅘", 4.0 / 5},
                                                                       {"⅙", 1.0 / 6},
                                                                       {"⅚", 5.0 / 6},
                                                                       {"⅛", 1.0 / 8},
                                                                       {"⅜", 3.0 / 8},
                                                                       {"⅝", 5.0 / 8},
                                                                       {"⅞", 7.0 / 8}}};

std::optional<LeadingNumber> vulgar(std::string_view text) {
  for (const auto& [sign, value] : kVulgar) {
    if (text.starts_with(sign)) {
      return LeadingNumber{value, text.substr(sign.size())};
    }
  }
  return std::nullopt;
}

std::string_view without_blanks(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) {
    text.remove_prefix(1);
  }
  // A no-break space, as word processors put between number and unit.
  return text.starts_with("\u00A0") ? without_blanks(text.substr(2)) : text;
}

/// "3/32": whole numbers only, so that "1.5/2" is not silently taken.
std::optional<LeadingNumber> fraction(std::string_view text) {
  std::size_t slash = 0;
  while (slash < text.size() && is_digit(text[slash])) {
    ++slash;
  }
  if (slash == 0 || slash + 1 >= text.size() || text[slash] != '/' || !is_digit(text[slash + 1])) {
    return std::nullopt;
  }
  long over = 0;
  long under = 0;
  const char* const end = text.data() + text.size();
  const auto top = std::from_chars(text.data(), text.data() + slash, over);
  const auto bottom = std::from_chars(text.data() + slash + 1, end, under);
  if (top.ec != std::errc{} || bottom.ec != std::errc{} || under == 0) {
    return std::nullopt;
  }
  return LeadingNumber{static_cast<double>(over) / static_cast<double>(under),
                       {bottom.ptr, static_cast<std::size_t>(end - bottom.ptr)}};
}

/// Digits and a point. An exponent is read too: files hold very small numbers as "1e-07".
std::optional<LeadingNumber> decimal(std::string_view text) {
  if (text.empty() || (!is_digit(text.front()) && text.front() != '.')) {
    return std::nullopt;
  }
  double value = 0;
  const char* const end = text.data() + text.size();
  const auto [ptr, ec] = std::from_chars(text.data(), end, value);
  if (ec != std::errc{} || !std::isfinite(value)) {
    return std::nullopt;
  }
  return LeadingNumber{value, {ptr, static_cast<std::size_t>(end - ptr)}};
}

std::optional<LeadingNumber> unsigned_number(std::string_view text) {
  if (auto f = vulgar(text)) {
    return f;
  }
  if (auto f = fraction(text)) {
    return f;
  }
  auto whole = decimal(text);
  if (!whole || whole->value != std::floor(whole->value)) {
    return whole;
  }
  // A mixed number: "12 1/2", "12-1/2", "12½".
  std::string_view tail = without_blanks(whole->rest);
  if (tail.starts_with('-')) {
    tail.remove_prefix(1);
  }
  auto part = vulgar(tail);
  if (!part) {
    part = fraction(tail);
  }
  if (part && part->value < 1) {
    return LeadingNumber{whole->value + part->value, part->rest};
  }
  return whole;
}

}  // namespace

std::optional<LeadingNumber> leading_number(std::string_view text) {
  text = without_blanks(text);
  double sign = 1;
  if (text.starts_with("−")) {  // U+2212
    sign = -1;
    text.remove_prefix(std::string_view("−").size());
  } else if (text.starts_with('-') || (text.starts_with('+') && !text.starts_with("+/-"))) {
    sign = text.front() == '-' ? -1 : 1;
    text.remove_prefix(1);
  }
  auto number = unsigned_number(text);
  if (number) {
    number->value *= sign;
    number->rest = without_blanks(number->rest);
  }
  return number;
}

std::vector<std::string_view> vulgar_fractions() {
  std::vector<std::string_view> signs;
  signs.reserve(kVulgar.size());
  for (const auto& [sign, value] : kVulgar) {
    signs.push_back(sign);
  }
  return signs;
}

bool has_decimal_comma(std::string_view text) {
  for (std::size_t i = 1; i + 1 < text.size(); ++i) {
    if (text[i] == ',' && is_digit(text[i - 1]) && is_digit(text[i + 1])) {
      return true;
    }
  }
  return false;
}

std::optional<double> number_from(std::string_view text) {
  const auto number = leading_number(trimmed(text));
  if (!number || !number->rest.empty()) {
    return std::nullopt;
  }
  return number->value;
}

std::string fixed(double value, int decimals) {
  std::string out = fmt::format("{:.{}f}", value, decimals);
  if (out.starts_with('-') && out.find_first_not_of("-0.") == std::string::npos) {
    out.erase(0, 1);
  }
  return out;
}

std::string shortest(double value) { return fmt::format("{}", value); }

std::string rounded(double value, int digits) {
  if (value == 0 || !std::isfinite(value)) {
    return fmt::format("{}", value == 0 ? 0.0 : value);
  }
  const int magnitude = static_cast<int>(std::floor(std::log10(std::fabs(value)))) + 1;
  std::string out = fixed(value, std::clamp(digits - magnitude, 0, 15));
  if (out.find('.') != std::string::npos) {
    out.erase(out.find_last_not_of('0') + 1);
    if (out.ends_with('.')) {
      out.pop_back();
    }
  }
  return out;
}

}  // namespace loopledger
