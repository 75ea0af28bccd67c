// SPDX-License-Identifier: MIT
#include "json/print_json.h"

#include <utility>

#include "json/shelf_json.h"

namespace loopledger::json {

Json to_json(const commands::PrintAnswer& answer) {
  if (has_errors(answer.said)) {
    return nothing_but(answer.said);
  }
  Json paths = Json::array();
  for (const commands::WrittenFile& file : answer.files) {
    paths.push(file.path);
  }
  Json opened = Json::array();
  for (const MotorId& id : answer.opened) {
    opened.push(printed(id));
  }
  Json out = Json::object();
  out.set("format", 1).set("files", std::move(paths)).set("records", answer.records);
  out.set("opened", std::move(opened)).set("kept", answer.kept);
  out.set("shelf_after", shelf_json(answer.plan, answer.batch));
  return std::move(out.set("diagnostics", to_json(answer.said)));
}

Json to_json(const commands::TestPageAnswer& answer) {
  if (!answer.file) {
    return nothing_but(answer.said);
  }
  Json out = Json::object();
  out.set("format", 1).set("files", Json::array().push(answer.file->path));
  return std::move(out.set("diagnostics", to_json(answer.said)));
}

}  // namespace loopledger::json
