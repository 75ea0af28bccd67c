// SPDX-License-Identifier: MIT
//
// Comparing with numbers as a source prints them: `value == printed("1.083")` holds when the value
// rounds to those digits, that is within half of the last printed digit. The text is what the
// source shows, so that a test keeps the source's own precision.
#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <ostream>
#include <string>

namespace loopledger::test {

class Printed {
 public:
  explicit Printed(std::string text) : text_(std::move(text)) {
    char* end = nullptr;
    value_ = std::strtod(text_.c_str(), &end);
    REQUIRE(end == text_.c_str() + text_.size());
    const std::size_t exponent_at = text_.find_first_of("eE");
    const std::string digits = text_.substr(0, exponent_at);
    const std::size_t point = digits.find('.');
    const auto decimals =
        point == std::string::npos ? 0 : static_cast<int>(digits.size() - point) - 1;
    const int exponent =
        exponent_at == std::string::npos ? 0 : std::atoi(text_.c_str() + exponent_at + 1);
    // A hair more than half a digit: a value may lie on the edge, give or take binary rounding.
    half_digit_ =
        0.5 * std::pow(10.0, exponent - decimals) * (1 + 1e-9) + 1e-12 * std::fabs(value_);
  }

  [[nodiscard]] bool matches(double value) const {
    return std::fabs(value - value_) <= half_digit_;
  }

  friend bool operator==(double value, const Printed& p) { return p.matches(value); }
  friend std::ostream& operator<<(std::ostream& out, const Printed& p) { return out << p.text_; }

 private:
  std::string text_;
  double value_ = 0;
  double half_digit_ = 0;
};

inline Printed printed(const std::string& text) { return Printed(text); }

}  // namespace loopledger::test
