// SPDX-License-Identifier: MIT
#include "terminal/list_fields.h"

#include <fmt/format.h>

#include <type_traits>

#include "tag/id.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {

RowFields fields_of(const commands::ListRow& row) {
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

json::Json to_json(const RowValue& value) {
  return std::visit(
      [](const auto& v) {
        if constexpr (std::is_same_v<std::decay_t<decltype(v)>, std::monostate>) {
          return json::Json();
        } else {
          return json::Json(v);
        }
      },
      value);
}

json::Json row_json(const commands::ListRow& row) {
  json::Json one = json::Json::object();
  for (const auto& [key, value] : fields_of(row)) {
    one.set(key, to_json(value));
  }
  return one;
}

std::string id_text(const commands::ListRow& row) { return tag::with_check(row.id); }

std::string washed_text(const commands::ListRow& row) {
  return gram_cell(row.washed, row.scale_step);
}

std::string loop_text(const commands::ListRow& row, Units units) {
  const LoopIs is = row.loop_is;
  return fmt::format("{} {}", shown(row.loop, units),
                     is == LoopIs::planned ? 'p'
                     : is == LoopIs::tied  ? 't'
                                           : 'b');
}

std::string best_turns_text(const commands::ListRow& row) {
  return row.best ? rounded(row.best->turns.count(), 6) : "-";
}

std::string best_torque_text(const commands::ListRow& row, Units units) {
  return row.best && row.best->torque ? shown(*row.best->torque, units) : "-";
}

}  // namespace loopledger::terminal
