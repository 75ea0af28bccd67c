// SPDX-License-Identifier: MIT
#include "json/row_json.h"

#include <type_traits>

#include "tag/id.h"

namespace loopledger::json {

RowFields fields_of(const commands::MotorRow& row) {
  const auto text = [](const std::string& t) { return t.empty() ? RowValue() : RowValue(t); };
  return {{"id", printed(row.id)},
          {"check_char", std::string(1, tag::check_character(row.id))},
          {"state", std::string(word(row.state))},
          {"owner", text(row.owner)},
          {"for", text(row.purpose)},
          {"rule", text(row.rule)},
          {"strip", row.strip},
          {"lot", text(row.lot)},
          {"washed_g", row.washed ? RowValue(row.washed->in_g()) : RowValue()},
          {"loop_mm", row.loop.in_mm()},
          {"wind_to_turns", row.wind_to.count()},
          {"best_turns", row.best ? RowValue(row.best->turns.count()) : RowValue()},
          {"best_torque_mNm",
           row.best && row.best->torque ? RowValue(row.best->torque->in_mnm()) : RowValue()},
          {"last_date", text(row.last)},
          {"torn", row.torn},
          {"planned_edited", row.planned_edited},
          {"label_stale", row.stale},
          {"loop_is", std::string(word(row.loop_is))},
          {"mark", text(row.mark)}};
}

Json to_json(const RowValue& value) {
  return std::visit(
      [](const auto& v) {
        if constexpr (std::is_same_v<std::decay_t<decltype(v)>, std::monostate>) {
          return Json();
        } else {
          return Json(v);
        }
      },
      value);
}

Json row_json(const commands::MotorRow& row) {
  Json one = Json::object();
  for (const auto& [key, value] : fields_of(row)) {
    one.set(key, to_json(value));
  }
  return one;
}

}  // namespace loopledger::json
