// SPDX-License-Identifier: MIT
#include "json/shelf_json.h"

#include <utility>

#include "motor/group_words.h"

namespace loopledger::json {

Json shelf_json(const plan::Plan& plan, const calc::Batch& batch) {
  Json strips = Json::array();
  for (const calc::StripAfter& after : batch.cutting.after) {
    Json pieces = Json::array();
    for (const calc::ShelfPiece& piece : after.pieces) {
      Json out = Json::object();
      out.set("tag", piece.tag).set("length_mm", piece.length.in_mm());
      out.set("mass_g", piece.mass ? Json(piece.mass->in_g()) : Json());
      pieces.push(std::move(out));
    }
    Json strip = Json::object();
    strip.set("strip", plan.strips[after.strip].name).set("pieces", std::move(pieces));
    strips.push(std::move(strip));
  }
  return strips;
}

Json more_json(const plan::Plan& plan, const calc::Batch& batch) {
  Json all = Json::array();
  for (const calc::MoreMotors& more : batch.cutting.more) {
    Json out = Json::object();
    out.set("motors", motor::ids_text(plan.motors[more.group])).set("count", more.count);
    all.push(std::move(out));
  }
  return all;
}

}  // namespace loopledger::json
