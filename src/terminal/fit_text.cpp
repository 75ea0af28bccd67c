// SPDX-License-Identifier: MIT
#include "terminal/fit_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/quantity_text.h"
#include "base/text.h"
#include "tag/id.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using Side = TextTable::Side;

constexpr std::size_t kShownLeftOut = 20;

std::string interval(const Estimate<double>& e, int decimals) {
  return fmt::format("{} ({}–{})", fixed(e.value, decimals), fixed(e.low, decimals),
                     fixed(e.high, decimals));
}

void add_row(TextTable& table, const char* name, const calc::LotFit& fit) {
  const int decimals = motor::decimals_of_uncertain(fit.next.value * fit.next_u);
  table.row({name, interval(fit.middle, decimals), fixed(fit.motor_to_motor * 100, 1) + " %",
             interval(fit.next, decimals)});
}

std::string counted_motors(const motor::LotData& data) {
  const int at_limit = data.broke + data.solid;
  return fmt::format("{} motor{} wound: {} to the limit ({} broke, {} felt solid), {} only stopped",
                     data.motors, data.motors == 1 ? "" : "s", at_limit, data.broke, data.solid,
                     data.stopped);
}

std::string left_out_text(const std::vector<motor::NotCounted>& all) {
  std::string out;
  for (std::size_t i = 0; i < std::min(all.size(), kShownLeftOut); ++i) {
    out += wrapped(fmt::format("  {}{}: {}", tag::with_check(all[i].id),
                               all[i].when.empty() ? "" : " on " + all[i].when, all[i].why));
  }
  if (all.size() > kShownLeftOut) {
    out += fmt::format("  and {} more: --json has them all\n", all.size() - kShownLeftOut);
  }
  return out.empty() ? out : "\nLeft out, or taken another way\n" + out;
}

std::string for_the_shelf(const motor::LotFactors& lot) {
  const auto turns = motor::shelf_turns(lot);
  const auto torque = motor::shelf_torque(lot);
  if (!turns && !torque) {
    return "\nNothing for the shelf yet: no motor of the lot was wound until it broke or felt "
           "solid, "
           "and\nthose that were stopped only say \"at least that\". Three that were would tell "
           "much.\n";
  }
  std::string out = "\nFor the shelf, under the strip of this lot (nothing was changed)\n";
  out += turns ? fmt::format("  turns_factor = \"{}\"\n", *turns) : "";
  out += torque ? fmt::format("  torque_factor = \"{}\"\n", *torque) : "";
  if (turns) {
    out += fmt::format(
        "\nWith it \"wind to\" is {} of the largest turns: {:.0f} % of motors break there "
        "(estimate).\n",
        fixed(motor::wind_to_share(lot), 2), calc::kFittedRisk * 100);
  } else {
    out += "\nWithout a turns_factor \"wind to\" stays as it was: log the turns too.\n";
  }
  if (motor::few_at_limit(lot)) {
    out +=
        "With so few at their limit it still rests on what was known before; three or more tell "
        "more.\n";
  }
  return out;
}

}  // namespace

std::string fit_text(const motor::LotFactors& lot) {
  std::string out =
      wrapped(fmt::format("Lot {}, {}", printable(lot.lot), counted_motors(lot.data))) + '\n';
  TextTable table({{"factor"},
                   {"middle of the lot (95 %)", Side::right},
                   {"motor to motor", Side::right},
                   {"the next motor (95 %)", Side::right}});
  add_row(table, "k_N, turns", lot.turns);
  add_row(table, "k_Q, torque, MPa", lot.torque);
  out += table.text();
  out += wrapped(
      fmt::format("  estimates; known before, from {}: k_N {} ± {:.0f} %, k_Q {} MPa ± {:.0f} %",
                  printable(lot.prior_from), rounded(lot.turns_prior.value, 4),
                  lot.turns_prior.relative_u * 100, rounded(lot.torque_prior.value, 3),
                  lot.torque_prior.relative_u * 100));
  for (const std::string& surprise : motor::surprises(lot)) {
    out += wrapped('\n' + surprise);
  }
  out += left_out_text(lot.data.left_out);
  out += for_the_shelf(lot);
  return out + "Winding until rubber breaks: eye protection, and fingers clear of the motor.\n";
}

}  // namespace loopledger::terminal
