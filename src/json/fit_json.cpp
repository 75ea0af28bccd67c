// SPDX-License-Identifier: MIT
#include "json/fit_json.h"

#include <algorithm>

namespace loopledger::json {
namespace {

Json estimate_json(const calc::LotFit& fit, const std::vector<calc::FitDatum>& data) {
  Json out = Json::object();
  out.set("middle", fit.middle.value);
  out.set("middle_low", fit.middle.low).set("middle_high", fit.middle.high);
  out.set("motor_to_motor_percent", fit.motor_to_motor * 100);
  out.set("value", fit.next.value).set("u", fit.next.value * fit.next_u);
  out.set("next_low", fit.next.low).set("next_high", fit.next.high);
  const auto at_least = std::ranges::count_if(data, &calc::FitDatum::at_least);
  out.set("prior_tail_percent", fit.prior_tail ? Json(*fit.prior_tail * 100) : Json());
  out.set("seen_spread_percent", fit.seen_spread ? Json(*fit.seen_spread * 100) : Json());
  out.set("at_limit", static_cast<int>(data.size()) - static_cast<int>(at_least));
  out.set("at_least", static_cast<int>(at_least));
  return out;
}

}  // namespace

Json to_json(const commands::FitAnswer& answer) {
  if (!answer.lot) {
    return nothing_but(answer.said);
  }
  const motor::LotFactors& lot = *answer.lot;
  Json left_out = Json::array();
  for (const motor::NotCounted& one : lot.data.left_out) {
    left_out.push(Json::object()
                      .set("id", printed(one.id))
                      .set("date", one.when.empty() ? Json() : Json(one.when))
                      .set("why", one.why));
  }
  Json out = Json::object();
  out.set("format", 1).set("lot", lot.lot).set("motors", lot.data.motors);
  out.set("broke", lot.data.broke).set("solid", lot.data.solid).set("stopped", lot.data.stopped);
  out.set("turns_factor", estimate_json(lot.turns, lot.data.turns));
  out.set("torque_factor_MPa", estimate_json(lot.torque, lot.data.torque));
  out.set("wind_to_share", motor::wind_to_share(lot));
  out.set("shelf_turns_factor", motor::shelf_turns(lot));
  out.set("shelf_torque_factor", motor::shelf_torque(lot));
  out.set("left_out", std::move(left_out));
  out.set("diagnostics", to_json(answer.said));
  return out;
}

}  // namespace loopledger::json
