// SPDX-License-Identifier: MIT
#include "terminal/fit_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"
#include "base/text.h"
#include "tag/id.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using Side = TextTable::Side;

constexpr int kGoodNumber = 3;  // fewer motors at their limit: the prior still leads
constexpr std::size_t kShownLeftOut = 20;

/// Decimals that show a number of this size with two figures.
int decimals_for(double u) {
  return std::clamp(1 - static_cast<int>(std::floor(std::log10(u))), 0, 6);
}

bool any_at_limit(const std::vector<calc::FitDatum>& data) {
  return std::ranges::any_of(data, [](const calc::FitDatum& d) { return !d.at_least; });
}

std::string interval(const Estimate<double>& e, int decimals) {
  return fmt::format("{} ({}–{})", fixed(e.value, decimals), fixed(e.low, decimals),
                     fixed(e.high, decimals));
}

void add_row(TextTable& table, const char* name, const calc::LotFit& fit) {
  const int decimals = decimals_for(fit.next.value * fit.next_u);
  table.row({name, interval(fit.middle, decimals), fixed(fit.motor_to_motor * 100, 1) + " %",
             interval(fit.next, decimals)});
}

/// The share of its largest turns that a motor of the lot is wound to.
double wind_to_share(const LotFactors& lot) {
  const bool known = shelf_turns(lot).has_value();
  const calc::Factor<double> k =
      known ? calc::Factor<double>{lot.turns.next.value, lot.turns.next_u} : lot.turns_prior;
  // Of very many turns, for what is wound to is told in whole ones.
  const auto largest = calc::log_normal(Turns::of(1e6), k.relative_u);
  return calc::wind_to(largest, k, 0, known) / largest.value;
}

std::string counted_motors(const motor::LotData& data) {
  const int at_limit = data.broke + data.solid;
  return fmt::format("{} motor{} wound: {} to the limit ({} broke, {} felt solid), {} only stopped",
                     data.motors, data.motors == 1 ? "" : "s", at_limit, data.broke, data.solid,
                     data.stopped);
}

/// What the lot does that its figures did not expect.
std::string surprises(const LotFactors& lot) {
  std::string out;
  const auto against = [&](const char* name, const calc::LotFit& fit,
                           const calc::Factor<double>& prior) {
    if (fit.prior_tail && *fit.prior_tail < calc::kContradicts) {
      out += wrapped(fmt::format(
          "\nIts motors contradict what was known before of {}, {} ± {:.0f} %: so far off comes "
          "{:.1f} times in 100. See that lot, loops and cranks are right; then wind more of them, "
          "and they decide.",
          name, rounded(prior.value, 4), prior.relative_u * 100, *fit.prior_tail * 100));
    }
  };
  against("k_N", lot.turns, lot.turns_prior);
  against("k_Q", lot.torque, lot.torque_prior);
  const auto& spread = lot.turns.seen_spread;
  if (spread && *spread > calc::kTurnsFactorU) {
    const double risk = calc::breaking_risk(
        calc::kWindToShare * calc::kTurnsFactor / lot.turns.middle.value, *spread);
    out += wrapped(fmt::format(
        "\nIts motors differ by {:.0f} % in turns, more than the {:.0f} % that is expected: before "
        "it was fitted {:.1f} % of them broke at \"wind to\" (estimate). A fitted \"wind to\" "
        "rests "
        "on few motors then: of such lots up to 6 % break there with three at their limit, 4 % "
        "with ten (simulated).",
        *spread * 100, calc::kTurnsFactorU * 100, risk * 100));
  }
  return out;
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

std::string for_the_shelf(const LotFactors& lot) {
  const auto turns = shelf_turns(lot);
  const auto torque = shelf_torque(lot);
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
        fixed(wind_to_share(lot), 2), calc::kFittedRisk * 100);
  } else {
    out += "\nWithout a turns_factor \"wind to\" stays as it was: log the turns too.\n";
  }
  if (lot.data.broke + lot.data.solid < kGoodNumber) {
    out +=
        "With so few at their limit it still rests on what was known before; three or more tell "
        "more.\n";
  }
  return out;
}

json::Json estimate_json(const calc::LotFit& fit, const std::vector<calc::FitDatum>& data) {
  json::Json out = json::Json::object();
  out.set("middle", fit.middle.value);
  out.set("middle_low", fit.middle.low).set("middle_high", fit.middle.high);
  out.set("motor_to_motor_percent", fit.motor_to_motor * 100);
  out.set("value", fit.next.value).set("u", fit.next.value * fit.next_u);
  out.set("next_low", fit.next.low).set("next_high", fit.next.high);
  const auto at_least = std::ranges::count_if(data, &calc::FitDatum::at_least);
  out.set("prior_tail_percent", fit.prior_tail ? json::Json(*fit.prior_tail * 100) : json::Json());
  out.set("seen_spread_percent",
          fit.seen_spread ? json::Json(*fit.seen_spread * 100) : json::Json());
  out.set("at_limit", static_cast<int>(data.size()) - static_cast<int>(at_least));
  out.set("at_least", static_cast<int>(at_least));
  return out;
}

}  // namespace

std::string shelf_value(const calc::LotFit& fit, const std::string& unit) {
  const double u = fit.next.value * fit.next_u;
  const int decimals = decimals_for(u);
  const std::string behind = unit.empty() ? "" : " " + unit;
  return fmt::format("{}{} ± {}{}", fixed(fit.next.value, decimals), behind, fixed(u, decimals),
                     behind);
}

std::optional<std::string> shelf_turns(const LotFactors& lot) {
  return any_at_limit(lot.data.turns) ? std::optional(shelf_value(lot.turns, "")) : std::nullopt;
}

std::optional<std::string> shelf_torque(const LotFactors& lot) {
  return any_at_limit(lot.data.torque) ? std::optional(shelf_value(lot.torque, "MPa"))
                                       : std::nullopt;
}

std::string fit_text(const LotFactors& lot) {
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
  out += surprises(lot);
  out += left_out_text(lot.data.left_out);
  out += for_the_shelf(lot);
  return out + "Winding until rubber breaks: eye protection, and fingers clear of the motor.\n";
}

json::Json fit_json(const LotFactors& lot, const Diagnostics& diagnostics) {
  json::Json left_out = json::Json::array();
  for (const motor::NotCounted& one : lot.data.left_out) {
    left_out.push(json::Json::object()
                      .set("id", printed(one.id))
                      .set("date", one.when.empty() ? json::Json() : json::Json(one.when))
                      .set("why", one.why));
  }
  const auto text_or_null = [](const std::optional<std::string>& t) {
    return t ? json::Json(*t) : json::Json();
  };
  json::Json out = json::Json::object();
  out.set("format", 1).set("lot", lot.lot).set("motors", lot.data.motors);
  out.set("broke", lot.data.broke).set("solid", lot.data.solid).set("stopped", lot.data.stopped);
  out.set("turns_factor", estimate_json(lot.turns, lot.data.turns));
  out.set("torque_factor_MPa", estimate_json(lot.torque, lot.data.torque));
  out.set("wind_to_share", wind_to_share(lot));
  out.set("shelf_turns_factor", text_or_null(shelf_turns(lot)));
  out.set("shelf_torque_factor", text_or_null(shelf_torque(lot)));
  out.set("left_out", std::move(left_out));
  out.set("diagnostics", json::to_json(diagnostics));
  return out;
}

}  // namespace loopledger::terminal
