// SPDX-License-Identifier: MIT
#include "commands/take_entry.h"

#include <utility>

#include "base/text.h"
#include "motor/consequences.h"
#include "motor/entry_checks.h"
#include "motor/typed_entry.h"
#include "records/fields.h"

namespace loopledger::commands {

using records::Entry;
using records::Record;

Result<std::optional<Moment>> claimed_time(const std::string& typed) {
  if (typed.empty()) {
    return std::optional<Moment>();
  }
  const auto at = moment_from_text(typed);
  if (!at) {
    return motor::bad_time(typed);
  }
  return at;
}

CheckedEntry keyed_entry(const Record& record, const OfferedEntry& offered,
                         const std::function<std::string()>& random_four) {
  CheckedEntry checked;
  Entry& entry = checked.entry;
  entry = offered.entry;
  const bool is_claimed = offered.claimed.has_value();
  checked.said = motor::resolve_correction(entry, record, is_claimed);
  if (has_errors(checked.said)) {
    return checked;
  }
  const Moment at = offered.claimed.value_or(offered.context.now);
  entry.key = motor::new_key(at, is_claimed, entry, record, random_four);
  return checked;
}

void question(CheckedEntry& checked, const Record& record, const OfferedEntry& offered) {
  const Entry& entry = checked.entry;
  if (!offered.sure) {
    checked.doubts = motor::doubts_of(record, entry, offered.context);
  }
  checked.again = motor::again_warning(
      record, entry, offered.undated ? std::nullopt : records::moment_of_key(entry.key));
}

CheckedEntry check_entry(const Record& record, const OfferedEntry& offered,
                         const std::function<std::string()>& random_four) {
  CheckedEntry checked = keyed_entry(record, offered, random_four);
  if (!has_errors(checked.said)) {
    question(checked, record, offered);
  }
  return checked;
}

std::vector<std::string> consequences_of(const Record& before, const Entry& entry, Units units) {
  Record after = before;
  after.entries.push_back(entry);
  std::vector<std::string> lines = motor::consequences(before, after, entry, units);
  for (std::string& line : lines) {
    line = printable(line);
  }
  return lines;
}

Result<TakenEntry> add_entry(records::Ledger& ledger, Record before, Entry entry, Units units) {
  Diagnostics problems = ledger.add(before.id, entry);
  if (has_errors(problems)) {
    return problems;
  }
  std::vector<std::string> consequences = consequences_of(before, entry, units);
  return {TakenEntry{std::move(before), std::move(entry), std::move(consequences)},
          std::move(problems)};
}

}  // namespace loopledger::commands
