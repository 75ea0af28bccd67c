// SPDX-License-Identifier: MIT
#include "json/list_json.h"

#include "json/row_json.h"

namespace loopledger::json {

Json to_json(const commands::ListAnswer& answer) {
  if (!answer.motors) {
    return nothing_but(answer.said);
  }
  Json motors = Json::array();
  for (const commands::MotorRow& row : *answer.motors) {
    motors.push(row_json(row));
  }
  return Json::object()
      .set("format", 1)
      .set("motors", std::move(motors))
      .set("diagnostics", to_json(answer.said));
}

}  // namespace loopledger::json
