// SPDX-License-Identifier: MIT
#include "json/label_json.h"

#include <utility>

namespace loopledger::json {

Json to_json(const commands::LabelAnswer& answer) {
  if (!answer.understood) {
    return nothing_but(answer.said);
  }
  Json ids = Json::array();
  for (const MotorId& id : answer.motors) {
    ids.push(printed(id));
  }
  Json out = Json::object();
  out.set("format", 1).set("file", answer.file.empty() ? Json() : Json(answer.file));
  out.set("labels", answer.labels).set("motors", std::move(ids));
  return std::move(out.set("diagnostics", to_json(answer.said)));
}

}  // namespace loopledger::json
