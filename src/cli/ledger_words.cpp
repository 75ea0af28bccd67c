// SPDX-License-Identifier: MIT
#include "cli/ledger_words.h"

#include <fmt/format.h>

#include "base/text.h"
#include "tag/id.h"

namespace loopledger::cli {
namespace {

void name_nearest(Diagnostics& problems, records::Ledger& ledger, const MotorId& id) {
  const auto held = ledger.holding();
  if (problems.front().code != "none-record" || !held) {
    return;
  }
  std::vector<std::string> ids;
  for (const MotorId& one : held->ids) {
    ids.push_back(printed(one));
  }
  const std::vector<std::string_view> views(ids.begin(), ids.end());
  const std::string asked = printed(id);
  if (const std::string_view near = nearest(asked, views); !near.empty()) {
    problems.front().hint = fmt::format("did you mean {}?", near);
  }
}

}  // namespace

Result<FoundRecord> find_record(records::Ledger& ledger, const std::string& typed) {
  const auto id = tag::id_from(typed);
  if (!id) {
    return id.diagnostics();
  }
  auto record = ledger.read(id->id);
  if (!record) {
    Diagnostics problems = record.diagnostics();
    name_nearest(problems, ledger, id->id);
    return problems;
  }
  Diagnostics warnings = record.diagnostics();
  return {FoundRecord{id->id, id->checked, std::move(*record)}, std::move(warnings)};
}

Diagnostics torn_refusal(const records::Record& record) {
  if (!record.torn) {
    return {};
  }
  return {error("record-torn",
                fmt::format("{}: nothing is added to a record with a torn end", printed(record.id)),
                fmt::format("`loopledger mend {}` repairs it", printed(record.id)))};
}

Diagnostic retired_warning(const MotorId& id, std::string_view paper) {
  return warning(fmt::format("{}-retired", paper),
                 fmt::format("{} is retired: it gets no {}", tag::with_check(id), paper),
                 "log it tied again when it has a new knot");
}

}  // namespace loopledger::cli
