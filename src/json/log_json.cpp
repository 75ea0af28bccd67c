// SPDX-License-Identifier: MIT
#include "json/log_json.h"

namespace loopledger::json {

Json to_json(const commands::LogAnswer& answer) {
  if (!answer.taken) {
    return nothing_but(answer.said);
  }
  Json consequences = Json::array();
  for (const std::string& line : answer.taken->consequences) {
    consequences.push(line);
  }
  return Json::object()
      .set("format", 1)
      .set("id", printed(answer.taken->before.id))
      .set("key", answer.taken->entry.key)
      .set("consequences", std::move(consequences));
}

Json to_json(const commands::LogManyAnswer& answer) {
  if (has_errors(answer.said)) {
    return nothing_but(answer.said);
  }
  return Json::object()
      .set("format", 1)
      .set("stored", answer.rows.size())
      .set("there", answer.there);
}

}  // namespace loopledger::json
