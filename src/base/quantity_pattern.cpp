// SPDX-License-Identifier: MIT
#include "base/quantity_pattern.h"

#include <fmt/format.h>

#include "base/number_text.h"
#include "base/quantity_text.h"
#include "base/text.h"

namespace loopledger {
namespace {

constexpr std::string_view kSpace = "[ \\t\\r\\n\\f\\v]*";  ///< what trimming takes off
constexpr std::string_view kBlanks = "( |\\t|\u00A0)*";     ///< what may follow a number
constexpr std::string_view kProduct = "( |[.*-]|·|⋅)+";     ///< "gf.cm", "gf · cm"
constexpr std::string_view kNoProduct = "[ *-]*";           ///< "12-in" is no product
constexpr std::string_view kPlusMinus = "(±|\\+/-|\\+-)";

std::string joined(const std::vector<std::string_view>& all) {
  std::string out;
  for (const std::string_view one : all) {
    out += (out.empty() ? "" : "|") + std::string(one);
  }
  return out;
}

/// A number with its sign.
std::string number() {
  const std::string vulgar = "(" + joined(vulgar_fractions()) + ")";
  const std::string_view fraction = "[0-9]+/0*[1-9][0-9]*";
  const std::string_view decimal = "([0-9]+\\.?[0-9]*|\\.[0-9]+)([eE][+-]?[0-9]+)?";
  const std::string_view whole = "([0-9]+(\\.0*)?|\\.0+)";
  const std::string mixed =
      fmt::format("{}({}-?{}|(( |\\t|\u00A0)+-?|-){})", whole, kBlanks, vulgar, fraction);
  return fmt::format("(\\+?({}|{}|{}|{})|(-|−){})", vulgar, fraction, mixed, decimal, whole);
}

/// The letters of a unit in either case; "." stands for every way to write a product.
std::string unit(std::string_view name) {
  std::string out(kNoProduct);
  for (const char c : name) {
    const bool letter = c >= 'a' && c <= 'z';
    if (c == '.') {
      out += kProduct;
    } else if (letter) {
      out += fmt::format("[{}{}]", c, upper_ascii(std::string_view(&c, 1)));
    } else {
      out += c == '^' ? "\\^" : std::string(1, c);
    }
  }
  return out + "\\.?";  // "12 in."
}

std::string units_of(std::string_view kind) {
  std::string out;
  for (const UnitName& name : unit_names()) {
    if (name.kind == kind) {
      out += (out.empty() ? "" : "|") + unit(name.name);
    }
  }
  return out;
}

}  // namespace

std::string number_pattern() { return fmt::format("^{0}{1}{2}{1}{0}$", kSpace, kBlanks, number()); }

std::string quantity_pattern(std::string_view kind, bool uncertain) {
  const std::string value = fmt::format("{}{}{}{}", kSpace, kBlanks, number(), kBlanks);
  const std::string units = units_of(kind);
  const std::string with_unit =
      units.empty() ? std::string(kSpace) : fmt::format("{0}({1}){0}", kSpace, units);
  const std::string maybe_unit =
      units.empty() ? std::string(kSpace) : fmt::format("{0}(({1}){0})?", kSpace, units);
  if (kind == "time") {
    return fmt::format("^({}{})+$", value, with_unit);  // "1 h 30 min"
  }
  if (!uncertain) {
    return fmt::format("^{}{}$", value, may_be_bare(kind) ? maybe_unit : with_unit);
  }
  if (may_be_bare(kind)) {
    return fmt::format("^{0}{1}({2}{0}{1})?$", value, maybe_unit, kPlusMinus);
  }
  // One of the two has to have a unit.
  return fmt::format("^({0}{1}({2}{0}{3})?|{0}{4}{2}{0}{1})$", value, with_unit, kPlusMinus,
                     maybe_unit, kSpace);
}

}  // namespace loopledger
