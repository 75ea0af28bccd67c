// SPDX-License-Identifier: MIT
#include "cli/row_filter.h"

#include <fmt/format.h>

#include "base/text.h"

namespace loopledger::cli {
namespace {

bool same_word(const std::string& wanted, const std::string& is) {
  return wanted.empty() || lower_ascii(wanted) == lower_ascii(is);
}

}  // namespace

bool RowFilter::takes(const ListRow& row) const {
  return same_word(owner, row.owner) && same_word(rule, row.rule) &&
         (lot.empty() || is_of_lot(row.lot, row.strip, lot));
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

Command& add_filter(Command& command, RowFilter& to) {
  return command.option("--owner", to.owner, "Only this owner's")
      .option("--class,--rule", to.rule, "Only those under this rule")
      .option("--lot", to.lot, "Only those of this lot");
}

}  // namespace loopledger::cli
