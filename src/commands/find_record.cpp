// SPDX-License-Identifier: MIT
#include "commands/find_record.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "base/text.h"
#include "tag/id.h"

namespace loopledger::commands {

std::vector<std::string> parted_ids(const std::vector<std::string>& typed) {
  std::vector<std::string> ids;
  for (std::string word : typed) {
    std::ranges::replace(word, ',', ' ');
    std::istringstream stream{word};
    for (std::string id; stream >> id;) {
      ids.push_back(std::move(id));
    }
  }
  return ids;
}

std::string nearest_held(records::Ledger& ledger, const MotorId& id) {
  const auto held = ledger.holding();
  if (!held) {
    return {};
  }
  std::vector<std::string> ids;
  for (const MotorId& one : held->ids) {
    ids.push_back(printed(one));
  }
  const std::vector<std::string_view> views(ids.begin(), ids.end());
  const std::string asked = printed(id);
  const std::string_view near = nearest(asked, views);
  return near.empty() ? std::string() : fmt::format("did you mean {}?", near);
}

Result<FoundRecord> find_record(records::Ledger& ledger, const std::string& typed) {
  const auto id = tag::id_from(typed);
  if (!id) {
    return id.diagnostics();
  }
  auto record = ledger.read(id->id);
  if (!record) {
    Diagnostics problems = record.diagnostics();
    if (problems.front().code == "none-record") {
      if (std::string near = nearest_held(ledger, id->id); !near.empty()) {
        problems.front().hint = std::move(near);
      }
    }
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

std::string records_folder(const std::string& option, const std::string& from_plan,
                           const World& world) {
  if (!option.empty()) {
    return option;
  }
  if (const auto env = world.env("LOOPLEDGER_RECORDS"); env && !env->empty()) {
    return *env;
  }
  return from_plan.empty() ? "records" : from_plan;
}

}  // namespace loopledger::commands
