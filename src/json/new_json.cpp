// SPDX-License-Identifier: MIT
#include "json/new_json.h"

namespace loopledger::json {

Json to_json(const commands::NewPlanAnswer& answer) {
  Json out = Json::object();
  out.set("format", 1).set("file", answer.file.empty() ? Json() : Json(answer.file));
  return out.set("diagnostics", to_json(answer.said));
}

}  // namespace loopledger::json
