// SPDX-License-Identifier: MIT
#include "commands/row_filter.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "base/letters.h"
#include "base/text.h"

namespace loopledger::commands {
namespace {

/// Without case and marks: "Žaneta" as "zaneta". Letters that are no letter with a mark, such as ł,
/// stay as they are.
std::string folded(const std::string& text) {
  std::vector<char32_t> letters = composed(code_points(text));
  for (char32_t& c : letters) {
    for (char32_t plain = without_mark(c); plain != 0; plain = without_mark(c)) {
      c = plain;
    }
  }
  return lower_ascii(to_utf8(letters));
}

bool same_word(const std::string& wanted, const std::string& is) {
  return wanted.empty() || folded(wanted) == folded(is);
}

/// A word that none of the motors has, with the nearest they have, or all of these.
void name_what_is_there(const char* what, const std::string& wanted,
                        const std::set<std::string>& there, Diagnostics& said) {
  const bool held =
      std::ranges::any_of(there, [&](const std::string& one) { return same_word(wanted, one); });
  if (held || there.empty()) {
    return;
  }
  constexpr std::size_t kNamed = 8;
  std::vector<std::string> keys;
  std::vector<std::string> names;
  for (const std::string& one : there) {
    keys.push_back(folded(one));
    if (names.size() < kNamed) {
      names.push_back(fmt::format("\"{}\"", printable(shortened(one, 30))));
    }
  }
  const std::string key = folded(wanted);
  auto near = std::ranges::find_if(
      keys, [&](const std::string& one) { return !key.empty() && one.starts_with(key); });
  if (near == keys.end()) {
    const std::vector<std::string_view> views(keys.begin(), keys.end());
    near = std::ranges::find(keys, nearest(key, views));
  }
  said.push_back(warning(
      "list-none",
      fmt::format("no motor has the {} \"{}\"", what, printable(shortened(wanted, 40))),
      near != keys.end()
          ? fmt::format("did you mean \"{}\"?",
                        printable(shortened(*std::next(there.begin(), near - keys.begin()), 40)))
          : fmt::format("there {} {}{}", there.size() == 1 ? "is" : "are", fmt::join(names, ", "),
                        there.size() > kNamed ? ", …" : "")));
}

}  // namespace

bool RowFilter::takes(const MotorRow& row) const {
  return same_word(owner, row.owner) && same_word(rule, row.rule) &&
         (lot.empty() || is_of_lot(row.lot, row.strip, lot));
}

Diagnostics RowFilter::none_has(const std::vector<MotorRow>& rows) const {
  std::set<std::string> owners;
  std::set<std::string> rules;
  std::set<std::string> lots;
  for (const MotorRow& row : rows) {
    for (const auto& [word, into] : {std::pair(&row.owner, &owners), std::pair(&row.rule, &rules),
                                     std::pair(&row.lot, &lots)}) {
      if (!word->empty()) {
        into->insert(*word);
      }
    }
  }
  Diagnostics said;
  name_what_is_there("owner", owner, owners, said);
  name_what_is_there("rule", rule, rules, said);
  name_what_is_there("lot", lot, lots, said);
  return said;
}

std::string RowFilter::text() const {
  std::string out;
  const auto add = [&out](const char* option, const std::string& word) {
    if (!word.empty()) {
      out += fmt::format("{}{} {}", out.empty() ? "" : " ", option, word);
    }
  };
  add("--owner", owner);
  add("--class", rule);
  add("--lot", lot);
  return out;
}

}  // namespace loopledger::commands
