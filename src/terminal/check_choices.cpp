// SPDX-License-Identifier: MIT
//
// The table from which a builder chooses a motor: what each strip would give at a rule's limit.
#include <fmt/format.h>

#include "base/text.h"
#include "terminal/check_view.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using calc::Choice;
using Side = TextTable::Side;

/// "TH, 4 motors: no size yet. At the limit of rule club, 1.5 g, with 265 mm between the hooks"
std::string choices_head(const plan::MotorGroup& group, const Choice& first, Units units) {
  std::string out =
      fmt::format("{}, {} motor{}: no size yet. At the limit of rule {}", group.stem.value,
                  group.count.value, group.count.value == 1 ? "" : "s",
                  first.planned.rule ? first.planned.rule->name : "of the full motor");
  out += first.planned.rule ? ", " + exact(first.planned.rule->limit) : "";
  out += first.planned.hooks
             ? fmt::format(", with {} between the hooks", shown(*first.planned.hooks, units))
             : "";
  return out;
}

TextTable choices_table(Units units) {
  return TextTable({{"strip", Side::left, 8},
                    {"strands", Side::right},
                    {"width", Side::right},
                    {"loop", Side::right},
                    {"slack", Side::right},
                    {"wind to", Side::right},
                    {"not past", Side::right},
                    {torque_unit(units) + " (95 %)", Side::right},
                    {"J", Side::right},
                    {"gives", Side::right}});
}

}  // namespace

std::string choices_text(const plan::Plan& plan, const calc::Batch& batch, Units units) {
  std::string out;
  for (auto from = batch.choices.begin(); from != batch.choices.end();) {
    const plan::MotorGroup& group = plan.motors[from->group];
    out += "\n" + wrapped(printable(choices_head(group, *from, units)));
    TextTable table = choices_table(units);
    auto to = from;
    for (; to != batch.choices.end() && to->group == from->group; ++to) {
      const records::Planned& p = to->planned;
      const auto slack = records::slack(p);
      table.row({p.strip, fmt::format("{}", p.strands), width_text(p, units), shown(p.loop, units),
                 slack ? shown(*slack, units) : std::string(), shown_at_most(p.wind_to),
                 shown_at_most(records::do_not_pass(p)),
                 fmt::format("{} ({})", torque_number(p.torque_max.value, units),
                             interval_of(p.torque_max, units)),
                 rounded(to->wind_to_energy.in_joule(), 3),
                 to->motors ? fmt::format("{}", *to->motors) : std::string()});
    }
    from = to;
    out += table.text();
  }
  if (!out.empty()) {
    out +=
        "  loop as tied; slack: loop beyond the hooks (below 0: stretched to reach); J: energy let "
        "out "
        "from\n  \"wind to\"; gives: motors from the strip's pieces. Turns, torque and energy are "
        "estimates.\n  Write what you choose into the plan: strip, strands, and mass = \"limit\" "
        "or "
        "a loop\n";
  }
  return out;
}

}  // namespace loopledger::terminal
