// SPDX-License-Identifier: MIT
//
// The cells that the tables of `list` and `match` share.
#pragma once

#include <string>

#include "base/quantity_text.h"
#include "commands/motor_rows.h"

namespace loopledger::terminal {

/// "TH-01-J"
[[nodiscard]] std::string id_text(const commands::MotorRow& row);
/// The washed mass in grams as the scale shows it, "-" when it was not logged.
[[nodiscard]] std::string washed_text(const commands::MotorRow& row);
/// "303 mm t": as planned (p), as tied (t) or broken in (b); kLoopLegend says so below the table.
[[nodiscard]] std::string loop_text(const commands::MotorRow& row, Units units);
inline constexpr const char* kLoopLegend = "loop: p as planned, t as tied, b broken in\n";
/// The most turns; "-" when it was never wound.
[[nodiscard]] std::string best_turns_text(const commands::MotorRow& row);
/// The torque read at the most turns, or "-".
[[nodiscard]] std::string best_torque_text(const commands::MotorRow& row, Units units);

}  // namespace loopledger::terminal
