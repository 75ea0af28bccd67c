// SPDX-License-Identifier: MIT
//
// A motor of the ledger as `list` and `match` say it in JSON and CSV: one reading of the fields'
// names and units.
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "commands/motor_rows.h"
#include "json/json.h"

namespace loopledger::json {

/// Nothing, a text, a number or a yes or no.
using RowValue = std::variant<std::monostate, std::string, double, bool>;
using RowFields = std::vector<std::pair<const char*, RowValue>>;

[[nodiscard]] RowFields fields_of(const commands::MotorRow& row);
[[nodiscard]] Json to_json(const RowValue& value);
/// The object of `list --json` for one motor.
[[nodiscard]] Json row_json(const commands::MotorRow& row);

}  // namespace loopledger::json
