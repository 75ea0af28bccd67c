// SPDX-License-Identifier: MIT
#include "json/scan_json.h"

#include "json/record_json.h"
#include "tag/id.h"

namespace loopledger::json {
namespace {

Json tag_json(const commands::ScannedTag& looked, const motor::Today& today) {
  const MotorId& id = looked.tag.figures.id;
  Json misfits = Json::array();
  for (const std::string_view word : looked.misfits) {
    misfits.push(word);
  }
  return Json::object()
      .set("text", looked.tag.text)
      .set("id", printed(id))
      .set("check_char", std::string(1, tag::check_character(id)))
      .set("known", looked.known)
      .set("label_stale", looked.stale)
      .set("record",
           looked.record ? record_json(*looked.record, today, {}).drop("diagnostics") : Json())
      .set("misfits", std::move(misfits));
}

}  // namespace

Json to_json(const commands::ScanAnswer& answer) {
  if (!answer.today) {
    return nothing_but(answer.said);
  }
  Json images = Json::array();
  for (const commands::ScannedImage& image : answer.images) {
    Json tags = Json::array();
    for (const commands::ScannedTag& one : image.tags) {
      tags.push(tag_json(one, *answer.today));
    }
    images.push(Json::object().set("file", image.file).set("tags", std::move(tags)));
  }
  return Json::object()
      .set("format", 1)
      .set("images", std::move(images))
      .set("diagnostics", to_json(answer.said));
}

}  // namespace loopledger::json
