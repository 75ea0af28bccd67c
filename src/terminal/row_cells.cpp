// SPDX-License-Identifier: MIT
#include "terminal/row_cells.h"

#include <fmt/format.h>

#include "tag/id.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {

std::string id_text(const commands::MotorRow& row) { return tag::with_check(row.id); }

std::string washed_text(const commands::MotorRow& row) {
  return gram_cell(row.washed, row.scale_step);
}

std::string loop_text(const commands::MotorRow& row, Units units) {
  const LoopIs is = row.loop_is;
  return fmt::format("{} {}", shown(row.loop, units),
                     is == LoopIs::planned ? 'p'
                     : is == LoopIs::tied  ? 't'
                                           : 'b');
}

std::string best_turns_text(const commands::MotorRow& row) {
  return row.best ? rounded(row.best->turns.count(), 6) : "-";
}

std::string best_torque_text(const commands::MotorRow& row, Units units) {
  return row.best && row.best->torque ? shown(*row.best->torque, units) : "-";
}

}  // namespace loopledger::terminal
