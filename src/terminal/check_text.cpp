// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <tuple>

#include "base/text.h"
#include "calc/break_in.h"
#include "calc/cranks.h"
#include "calc/energy.h"
#include "calc/turns_torque.h"
#include "calc/weigh.h"
#include "motor/crank_words.h"
#include "motor/group_words.h"
#include "sheets/figures_text.h"
#include "sheets/label_values.h"
#include "terminal/check_view.h"
#include "terminal/cutting_text.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using calc::Batch;
using calc::MotorFigures;
using records::Planned;
using Side = TextTable::Side;

bool alike(const MotorFigures& a, const MotorFigures& b) {
  return a.group == b.group && a.planned.linear_density == b.planned.linear_density;
}

using Row = CheckRow;

std::vector<Row> rows_of(const Batch& batch) {
  std::vector<Row> rows;
  for (std::size_t from = 0; from < batch.motors.size();) {
    std::size_t to = from;
    while (to + 1 < batch.motors.size() && alike(batch.motors[from], batch.motors[to + 1])) {
      ++to;
    }
    rows.push_back(
        {motor::ids_text(batch.motors[from].id, batch.motors[to].id.number), &batch.motors[from]});
    from = to + 1;
  }
  return rows;
}

std::string range(const records::Window& w, const Planned& p) {
  return gram_cell(w.low, p.scale_step) + "–" + gram_cell(w.high, p.scale_step);
}

std::string head(const plan::Plan& plan, const Batch& batch) {
  std::string out = plan.title.empty() ? plan.file : plan.title;
  if (plan.date.given) {
    out += ", " + iso(plan.date.value);
  }
  return wrapped(fmt::format("{}: {} motor{}{}", shortened(printable(out), 80), batch.motors.size(),
                             batch.motors.size() == 1 ? "" : "s",
                             batch.choices.empty() ? "" : " with a size"));
}

std::string counts_text(const Counts& counts) {
  std::string out = "rubber";
  out += counts.lubricant ? ", lubricant" : "";
  out += counts.rings ? ", rings" : "";
  out += counts.adhesive ? ", adhesive" : "";
  return out;
}

std::string rule_line(const records::PlannedRule& rule) {
  std::string line = fmt::format("rule {}: at most {}, counts {}", shortened(rule.name, 30),
                                 exact(rule.limit), counts_text(rule.counts));
  if (rule.counts.lubricant) {
    line += fmt::format(", weighed {}", word(rule.weighed));
  }
  return line;
}

/// Of the motors, and of what groups without a size would become.
std::vector<const Planned*> all_planned(const Batch& batch) {
  std::vector<const Planned*> all;
  for (const MotorFigures& motor : batch.motors) {
    all.push_back(&motor.planned);
  }
  for (const calc::Choice& choice : batch.choices) {
    all.push_back(&choice.planned);
  }
  return all;
}

/// Strips whose pieces differ in their linear density, so that each has a line of its own.
class ByPiece {
 public:
  explicit ByPiece(const std::vector<const Planned*>& all) {
    for (const Planned* const p : all) {
      Seen& known = strips_.try_emplace(key(*p), Seen{&p->linear_density}).first->second;
      known.differ = known.differ || *known.first != p->linear_density;
    }
  }
  [[nodiscard]] bool operator()(const Planned& p) const { return strips_.at(key(p)).differ; }

 private:
  struct Seen {
    const Uncertain<LinearDensity>* first = nullptr;
    bool differ = false;
  };
  using Key = std::tuple<std::string_view, bool, std::optional<Length>>;
  static Key key(const Planned& p) { return {p.strip, p.slit, p.width}; }
  std::map<Key, Seen> strips_;
};

std::string strip_line(const Planned& p, bool by_piece) {
  return fmt::format("strip {}{}{}: {} ± {} g/m washed, {} mm per mg", shortened(p.strip, 40),
                     p.slit ? ", slit" : "",
                     by_piece && !p.piece.empty() ? ", piece " + shortened(p.piece, 20) : "",
                     fixed(p.linear_density.value.in_g_per_m(), 4),
                     fixed(p.linear_density.u.in_g_per_m(), 4),
                     fixed((Mass::mg(1) / p.linear_density.value).in_mm(), 3));
}

/// What the figures rest on: strips, rules, the plan's confidence and scale.
std::string inputs(const plan::Plan& plan, const Batch& batch) {
  const std::vector<const Planned*> all = all_planned(batch);
  const ByPiece by_piece(all);
  std::set<std::string> seen;
  std::string out;
  const auto add = [&](const std::string& line) {
    if (seen.insert(line).second) {
      out += wrapped("  " + printable(line));
    }
  };
  for (const Planned* const p : all) {
    add(strip_line(*p, by_piece(*p)));
  }
  for (const Planned* const p : all) {
    if (p->rule) {
      add(rule_line(*p->rule));
    }
  }
  add(fmt::format("confidence {} that a motor is within its limit; scale {} mg",
                  exact(plan.bench.confidence.value),
                  rounded(plan.bench.scale_step.value.in_mg(), 3)));
  return out;
}

std::string windows_table(const std::vector<Row>& rows) {
  TextTable table({{"motors"},
                   {"owner", Side::left, 6},
                   {"as cut from", Side::right},
                   {"about", Side::right},
                   {"washed", Side::right},
                   {"tied", Side::right},
                   {"finished", Side::right},
                   {"guard mg", Side::right}});
  bool tails = false;
  for (const Row& row : rows) {
    const Planned& p = row.motor->planned;
    const records::Window washed = calc::scale_window(p, Stage::washed);
    tails = tails || p.tails > Length{};
    table.row({row.ids, p.owner, gram_cell(p.windows.of(Stage::as_cut).low, p.scale_step),
               gram_cell(p.windows.about, p.scale_step), range(washed, p),
               range(p.windows.of(Stage::tied), p), range(p.windows.of(Stage::finished), p),
               washed.guard ? fixed(washed.guard->in_mg(), 1) : "-"});
  }
  return "\nScale readings, g (leave a motor between the two)\n" + table.text() +
         (tails ? "  as cut and washed with their tails on\n" : "");
}

std::string lengths(const std::vector<Row>& rows, Units units) {
  TextTable table({{"motors"},
                   {"for", Side::left, 8},
                   {"aim g", Side::right},
                   {"cut", Side::right},
                   {"± 95 %", Side::right},
                   {"as tied", Side::right},
                   {"broken in", Side::right},
                   {"slack", Side::right},
                   {"strands", Side::right},
                   {"width", Side::right}});
  for (const Row& row : rows) {
    const Planned& p = row.motor->planned;
    const auto slack = records::slack(p);
    table.row({row.ids, p.purpose, fixed(p.aim.in_g(), gram_decimals(p.scale_step) + 1),
               shown(sheets::cut_length(p.cut, units), units),
               shown(p.cut_u * calc::coverage_95(), units), shown(p.loop, units),
               shown(calc::broken_in_loop(p.loop), units),
               slack ? shown(*slack, units) : std::string(), fmt::format("{}", p.strands),
               width_text(p, units)});
  }
  return "\nStrip and loop (aim: washed rubber; cut: what the piece gives up; loop as tied, and "
         "broken in\nas good rubber is the next day, an estimate; slack: as tied on the hooks)\n" +
         table.text();
}

std::string parts(const std::vector<Row>& rows, Units units) {
  std::string out;
  for (const Row& row : rows) {
    const Planned& p = row.motor->planned;
    if (p.part) {
      out += wrapped(fmt::format(
          "  {}: part motor, {} of the full length{}; no limit applies", row.ids,
          rounded(*p.part, 3),
          p.ballast && p.spacer ? fmt::format(", spacer {} of {}", shown(*p.spacer, units),
                                              shown(*p.ballast, p.scale_step))
          : p.ballast
              ? fmt::format(", {} less than the full motor", shown(*p.ballast, p.scale_step))
              : std::string()));
    }
  }
  return out;
}

std::string winding(const std::vector<Row>& rows, Units units) {
  const double ratio = rows.empty() ? 1 : rows.front().motor->planned.winder_ratio;
  TextTable table({{"motors"},
                   {"wind to", Side::right},
                   {motor::cranks_head(ratio), Side::right},
                   {"do not pass", Side::right},
                   {"breaks near (95 %)", Side::right},
                   {fmt::format("torque {} (95 %)", torque_unit(units)), Side::right}});
  for (const Row& row : rows) {
    const Planned& p = row.motor->planned;
    table.row(
        {row.ids, shown_at_most(p.wind_to),
         fixed(calc::cranks_to_wind_to(p.wind_to, records::do_not_pass(p), p.winder_ratio), 0),
         shown_at_most(records::do_not_pass(p)),
         fmt::format("{} ({}–{})", fixed(p.turns_max.value.count(), 0),
                     shown_at_most(p.turns_max.low), fixed(p.turns_max.high.count(), 0)),
         fmt::format("{} ({})", torque_number(p.torque_max.value, units),
                     interval_of(p.torque_max, units))});
  }
  std::string out = "\nTurns and torque, each an estimate with its 95 % interval\n" + table.text();
  std::set<std::string> seen;
  for (const Row& row : rows) {
    const Planned& p = row.motor->planned;
    const std::string line = wrapped(
        fmt::format("  strip {}: {}", shortened(printable(p.strip), 30), sheets::factors(p)));
    if (seen.insert(line).second) {
      out += line;
    }
  }
  return out;
}

std::string energies(const std::vector<Row>& rows) {
  TextTable table({{"motors"},
                   {"from wind to J", Side::right},
                   {"from the largest turns J (95 %)", Side::right},
                   {"J/g", Side::right},
                   {"of good rubber's", Side::right}});
  for (const Row& row : rows) {
    const Estimate<Energy>& largest = row.motor->energy;
    const SpecificEnergy specific = largest.value / row.motor->planned.aim;
    const calc::GoodShare good = calc::share_of_good(specific);
    table.row(
        {row.ids, rounded(row.motor->wind_to_energy.in_joule(), 3),
         fmt::format("{} ({}–{})", rounded(largest.value.in_joule(), 3),
                     rounded(largest.low.in_joule(), 3), rounded(largest.high.in_joule(), 3)),
         rounded(specific.in_joule_per_g(), 2),
         fmt::format("{:.0f}–{:.0f} %", good.of_best.in_percent(), good.of_least.in_percent())});
  }
  return fmt::format("\nEnergy let out, estimates (good rubber returned {} to {} J/g)\n",
                     fixed(calc::kGoodEnergyLow.in_joule_per_g(), 1),
                     fixed(calc::kGoodEnergyHigh.in_joule_per_g(), 1)) +
         table.text();
}

}  // namespace

std::string width_text(const Planned& p, Units units) {
  if (!p.width) {
    return "-";
  }
  std::string text = shown_width(*p.width, units);
  return p.slit ? "slit " + text : text;
}

std::string check_text(const plan::Plan& plan, const Batch& batch, Units units) {
  const std::vector<Row> rows = rows_of(batch);
  std::string out = head(plan, batch) + inputs(plan, batch);
  if (!rows.empty()) {
    out += windows_table(rows) + lengths(rows, units) + parts(rows, units) + winding(rows, units) +
           energies(rows) + break_in_text(rows, units) + cutting_text(plan, batch, units);
  }
  return out + choices_text(plan, batch, units);
}

}  // namespace loopledger::terminal
