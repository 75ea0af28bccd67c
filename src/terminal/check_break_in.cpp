// SPDX-License-Identifier: MIT
//
// The break-in steps of a plan, for the terminal.
#include <fmt/format.h>

#include "base/text.h"
#include "calc/break_in.h"
#include "terminal/check_view.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using Side = TextTable::Side;

/// "905", or, where only a torque stops the winding, "to 1190": the turns never to pass.
std::string step_turns(const records::Planned& p, const records::BreakInStep& step) {
  if (step.turns) {
    return shown_at_most(*step.turns);
  }
  return step.stop_torque ? "to " + shown_at_most(records::do_not_pass(p)) : "-";
}

std::vector<std::string> step_cells(const CheckRow& row, std::size_t number, Units units) {
  const records::Planned& p = row.motor->planned;
  const records::BreakInStep& step = p.break_in[number];
  return {row.ids,
          fmt::format("{}", number + 1),
          step.stretch ? shown(*step.stretch, units) : "-",
          step_turns(p, step),
          step.cranks ? fmt::format("{}", *step.cranks) : "-",
          step.stop_torque ? shown(calc::stop_torque(p, step), units) : "-",
          step.hold ? shown(*step.hold) : "-",
          step.rest ? shown(*step.rest) : "-",
          fmt::format("{}", step.repeat)};
}

/// Once for each recipe's step that has one.
std::string notes(const std::vector<CheckRow>& rows) {
  std::string out;
  for (const CheckRow& row : rows) {
    const records::Planned& p = row.motor->planned;
    for (std::size_t i = 0; i < p.break_in.size(); ++i) {
      const std::string line = wrapped(fmt::format("  {}, step {}: {}", printable(p.recipe), i + 1,
                                                   printable(p.break_in[i].note)));
      if (!p.break_in[i].note.empty() && out.find(line) == std::string::npos) {
        out += line;
      }
    }
  }
  return out;
}

}  // namespace

std::string break_in_text(const std::vector<CheckRow>& rows, Units units) {
  TextTable table({{"motors"},
                   {"step", Side::right},
                   {"stretch to", Side::right},
                   {"turns", Side::right},
                   {"cranks", Side::right},
                   {"or torque (95 %)", Side::right},
                   {"hold", Side::right},
                   {"rest", Side::right},
                   {"times", Side::right}});
  for (const CheckRow& row : rows) {
    for (std::size_t i = 0; i < row.motor->planned.break_in.size(); ++i) {
      table.row(step_cells(row, i, units));
    }
  }
  if (table.empty()) {
    return {};
  }
  return "\nBreak-in (stop at turns or torque, whichever comes first)\n" + table.text() +
         notes(rows);
}

}  // namespace loopledger::terminal
