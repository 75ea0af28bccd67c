// SPDX-License-Identifier: MIT
#include "records/write.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "records/crc32c.h"
#include "records/fields.h"
#include "records/format.h"
#include "records/lines.h"
#include "records/toml_text.h"
#include "records/write_planned.h"

namespace loopledger::records {
namespace {

constexpr std::string_view kWelcome =
    " Add to it with `loopledger log`; comments of your own may stand anywhere.\n"
    "# A line that you change by hand is shown as edited until `loopledger mend --accept`.\n";

std::string list_of(const std::vector<std::string_view>& names) {
  return fmt::format("{}", fmt::join(names, ", "));
}

Diagnostics unfit(const Entry& entry) {
  Diagnostics problems;
  if (entry.kind == Kind::other) {
    problems.push_back(
        error("record-kind", "an entry of a kind of a newer version can't be written"));
  }
  if (!moment_of_key(entry.key)) {
    problems.push_back(error(
        "record-key", fmt::format("expected a key such as \"20260501T100000Z-b7k2\", found \"{}\"",
                                  printable(shortened(entry.key, 40)))));
  }
  if (const auto missing = missing_fields(entry); !missing.empty()) {
    problems.push_back(error("record-missing", fmt::format("an entry \"{}\" needs {}",
                                                           word(entry.kind), list_of(missing))));
  }
  return problems;
}

}  // namespace

std::string new_record_text(const NewRecord& record) {
  std::string head =
      fmt::format("{}{}format = {}\nid = {}\ncheck = {}\n\n[planned]\n{}", kFirstLine, kWelcome,
                  kFormat, toml_string(printed(record.id)),
                  toml_string(std::string_view(&record.check, 1)), planned_lines(record.planned));
  const std::string sum = head_sum(head);
  return fmt::format("{}sum = \"{}\"\n\n{}\n", head, sum, kEntriesHeader);
}

bool says_the_same(Entry a, Entry b) {
  for (Entry* const entry : {&a, &b}) {
    entry->typed.clear();
    for (TurnsTorque& pair : entry->pairs) {
      pair.typed.clear();
    }
  }
  return a.kind == b.kind && a.kind_text == b.kind_text && a.unknown == b.unknown &&
         std::ranges::all_of(fields_of(a.kind), [&](const Field& field) {
           return toml_value(a, field) == toml_value(b, field);
         });
}

std::string summed_line(std::string_view body) {
  return fmt::format("{}, sum = \"{}\" }}\n", body, crc32c_text(body));
}

Result<std::string> entry_line(const Entry& entry) {
  if (Diagnostics problems = unfit(entry); !problems.empty()) {
    return problems;
  }
  std::string body =
      fmt::format("{} = {{ kind = {}", toml_string(entry.key), toml_string(word(entry.kind)));
  for (const Field& field : fields_of(entry.kind)) {
    if (const auto value = toml_value(entry, field)) {
      body += fmt::format(", {} = {}", field.name, *value);
    }
  }
  std::string line = summed_line(body);
  if (line.size() > kMaxLineBytes) {
    return error("record-long", fmt::format("expected an entry of at most {} bytes, found {}",
                                            kMaxLineBytes, line.size()));
  }
  return line;
}

}  // namespace loopledger::records
