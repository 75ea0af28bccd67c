// SPDX-License-Identifier: MIT
#include "json/log_json.h"

namespace loopledger::json {

namespace {

void put_entry(Json& to, const MotorId& id, const records::Entry& entry,
               const std::vector<std::string>& consequences) {
  Json lines = Json::array();
  for (const std::string& line : consequences) {
    lines.push(line);
  }
  to.set("id", printed(id)).set("key", entry.key).set("consequences", std::move(lines));
}

}  // namespace

Json to_json(const commands::LogAnswer& answer) {
  if (!answer.taken) {
    return nothing_but(answer.said);
  }
  Json out = Json::object().set("format", 1);
  put_entry(out, answer.taken->before.id, answer.taken->entry, answer.taken->consequences);
  return out;
}

Json to_json(const commands::LogManyAnswer& answer) {
  if (has_errors(answer.said)) {
    return nothing_but(answer.said);
  }
  Json entries = Json::array();
  for (const commands::LoggedRow& row : answer.rows) {
    Json one = Json::object();
    put_entry(one, row.id, row.entry, row.consequences);
    entries.push(std::move(one));
  }
  return Json::object()
      .set("format", 1)
      .set("stored", answer.rows.size())
      .set("there", answer.there)
      .set("entries", std::move(entries));
}

}  // namespace loopledger::json
