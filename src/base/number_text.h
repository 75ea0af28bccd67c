// SPDX-License-Identifier: MIT
//
// The number at the start of a text, as people write it: "1.5", "3/32", "12 1/2", "12-1/2", "12½".
// Quantities begin with it (base/quantity_text.cpp), and so do words typed at the bench.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace loopledger {

struct LeadingNumber {
  double value = 0;
  std::string_view rest;  ///< what follows the number, blanks taken off at its start
};

/// Empty when the text does not begin with a number, or when it overflows.
[[nodiscard]] std::optional<LeadingNumber> leading_number(std::string_view text);

/// Every fraction that is one character, "¼", "½" …, in no order that matters.
[[nodiscard]] std::vector<std::string_view> vulgar_fractions();

/// Whether the text holds a decimal comma between two digits: "1,5".
[[nodiscard]] bool has_decimal_comma(std::string_view text);

}  // namespace loopledger
