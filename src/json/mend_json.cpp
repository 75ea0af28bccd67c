// SPDX-License-Identifier: MIT
#include "json/mend_json.h"

namespace loopledger::json {

Json to_json(const commands::MendAnswer& answer) {
  if (!answer.done) {
    return nothing_but(answer.said);
  }
  Json done = Json::array();
  for (const std::string& sentence : *answer.done) {
    done.push(sentence);
  }
  return Json::object()
      .set("format", 1)
      .set("file", answer.path)
      .set("done", std::move(done))
      .set("diagnostics", to_json(answer.said));
}

}  // namespace loopledger::json
