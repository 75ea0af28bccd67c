// SPDX-License-Identifier: MIT
//
// A row of the ledger as `list` and `match` say it: its fields in JSON and CSV, one reading of
// their names and units, and the few cells that both tables have.
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/quantity_text.h"
#include "commands/motor_rows.h"
#include "json/json.h"

namespace loopledger::terminal {

/// Nothing, a text, a number or a yes or no.
using RowValue = std::variant<std::monostate, std::string, double, bool>;
using RowFields = std::vector<std::pair<const char*, RowValue>>;

[[nodiscard]] RowFields fields_of(const commands::ListRow& row);
[[nodiscard]] json::Json to_json(const RowValue& value);
/// The object of `list --json` for one motor.
[[nodiscard]] json::Json row_json(const commands::ListRow& row);

/// "TH-01-J"
[[nodiscard]] std::string id_text(const commands::ListRow& row);
/// The washed mass in grams as the scale shows it, "-" when it was not logged.
[[nodiscard]] std::string washed_text(const commands::ListRow& row);
/// "303 mm t": as planned (p), as tied (t) or broken in (b); kLoopLegend says so below the table.
[[nodiscard]] std::string loop_text(const commands::ListRow& row, Units units);
inline constexpr const char* kLoopLegend = "loop: p as planned, t as tied, b broken in\n";
/// The most turns; "-" when it was never wound.
[[nodiscard]] std::string best_turns_text(const commands::ListRow& row);
/// The torque read at the most turns, or "-".
[[nodiscard]] std::string best_torque_text(const commands::ListRow& row, Units units);

}  // namespace loopledger::terminal
