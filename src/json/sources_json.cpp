// SPDX-License-Identifier: MIT
#include "json/sources_json.h"

#include <utility>

namespace loopledger::json {

Json to_json(const commands::SourcesAnswer& answer) {
  Json rows = Json::array();
  for (const commands::SourceRow& row : answer.rows) {
    rows.push(Json::object()
                  .set("what", row.what)
                  .set("value", row.value)
                  .set("interval", row.interval == "-" ? Json() : Json(row.interval))
                  .set("source", row.source));
  }
  Json out = Json::object();
  out.set("format", 1).set("sources", std::move(rows));
  return out;
}

}  // namespace loopledger::json
