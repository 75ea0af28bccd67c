// SPDX-License-Identifier: MIT
//
// `fit LOT`: a lot's factors from the ledger, as lines for the shelf. It changes nothing.
#include "calc/fit.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <ostream>
#include <string>
#include <vector>

#include "base/text.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/motor_rows.h"
#include "commands/paths.h"
#include "commands/plan_input.h"
#include "motor/lot_data.h"
#include "posix/files.h"
#include "posix/posix_disk.h"
#include "records/ledger.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/fit_view.h"

namespace loopledger::terminal {
namespace {

struct FitOptions {
  std::string lot;
  std::string plan;
  std::string records;
  bool json = false;
};

std::string plain(const std::string& text) { return lower_ascii(trimmed(text)); }

Diagnostic no_such_lot(const commands::ListReading& all, const std::string& asked) {
  std::vector<std::string> lots;
  for (const commands::ListRow& row : all.rows) {
    lots.push_back(commands::lot_name(row.lot, row.strip));
  }
  std::ranges::sort(lots);
  lots.erase(std::unique(lots.begin(), lots.end()), lots.end());
  const std::vector<std::string_view> views(lots.begin(), lots.end());
  std::string_view near = nearest(asked, views);
  const auto begins = [&](const std::string& lot) { return plain(lot).starts_with(plain(asked)); };
  if (near.empty() && std::ranges::count_if(lots, begins) == 1) {
    near = *std::ranges::find_if(lots, begins);
  }
  return error("none-lot",
               fmt::format("no motor in the ledger is of the lot \"{}\"", shortened(asked, 60)),
               !near.empty()   ? fmt::format("did you mean \"{}\"?", near)
               : views.empty() ? "the ledger holds no motors yet: `loopledger print` opens records"
                               : fmt::format("its lots are {}", either(views)));
}

/// What the plan's strip of the lot says of its factors, where it does.
Diagnostics take_prior(const plan::Plan& plan, LotFactors& lot) {
  const auto strip = std::ranges::find_if(plan.strips, [&](const plan::Strip& s) {
    return commands::is_of_lot(s.lot, s.name, lot.lot);
  });
  if (strip == plan.strips.end()) {
    return {warning("fit-strip", fmt::format("no strip of the plan is of the lot \"{}\"", lot.lot),
                    "the defaults are what is known before")};
  }
  if (!strip->turns_factor.given && !strip->torque_factor.given) {
    return {};
  }
  lot.prior_from = fmt::format("strip {}", strip->name);
  if (strip->turns_factor.given) {
    const Uncertain<double>& k = strip->turns_factor.value;
    lot.turns_prior = {k.value, k.u > 0 ? k.u / k.value : calc::kFitTurnsU};
  }
  if (strip->torque_factor.given) {
    const Uncertain<Pressure>& k = strip->torque_factor.value;
    lot.torque_prior = {k.value.in_mpa(), k.u > Pressure{} ? k.u / k.value : calc::kTorqueFactorU};
  }
  return {note(
      "fit-twice",
      fmt::format("what the plan says of strip \"{}\" is taken as known before", strip->name),
      "if it came from this same ledger its motors count twice: leave --plan out", strip->place)};
}

Result<LotFactors> fitted(const FitOptions& options, const std::string& folder,
                          const plan::Plan* plan, Context& context) {
  records::Disk& disk = context.world.disk;
  records::Ledger ledger(disk, folder);
  const auto held = ledger.holding();
  if (!held) {
    return held.diagnostics();
  }
  const commands::ListReading of_lot =
      commands::read_list(context.world, folder, held->ids, [&](const commands::ListRow& row) {
        return commands::is_of_lot(row.lot, row.strip, options.lot);
      });
  Diagnostics said = held->passed_over;
  append(said, of_lot.problems);
  if (of_lot.rows.empty()) {
    said.push_back(no_such_lot(commands::read_list(context.world, folder, held->ids,
                                                   [](const commands::ListRow&) { return true; }),
                               options.lot));
    return said;
  }
  LotFactors lot;
  const commands::ListRow& first = of_lot.rows.front();
  lot.lot = commands::lot_name(first.lot, first.strip);
  lot.turns_prior = {calc::kTurnsFactor, calc::kFitTurnsU};
  lot.torque_prior = {calc::kTorqueFactor.in_mpa(), calc::kTorqueFactorU};
  lot.prior_from = "the defaults";
  if (plan != nullptr) {
    append(said, take_prior(*plan, lot));
  }
  for (const commands::ListRow& row : of_lot.rows) {
    if (const auto record = ledger.read(row.id)) {
      motor::add_to_lot(*record, lot.turns_prior.value, lot.torque_prior.value, lot.data);
    }
  }
  lot.turns = calc::fit_lot(lot.turns_prior, lot.data.turns);
  lot.torque = calc::fit_lot(lot.torque_prior, lot.data.torque);
  return {std::move(lot), std::move(said)};
}

void run_fit(const FitOptions& options, Context& context) {
  std::string from_plan;
  std::optional<commands::PlanInput> input;
  Diagnostics said;
  if (!options.plan.empty()) {
    auto loaded = commands::load_plan(options.plan, context.world);
    append(said, loaded.diagnostics());
    if (!loaded) {
      context.exit_code = report_alone(context, said, options.json);
      return;
    }
    input = std::move(*loaded);
    from_plan = commands::beside(options.plan, input->plan.records.value);
  }
  const std::string folder = commands::records_folder(options.records, from_plan, context.world);
  const auto lot = fitted(options, folder, input ? &input->plan : nullptr, context);
  append(said, lot.diagnostics());
  if (input) {
    commands::quote_lines(*input, said);
  }
  context.exit_code = report_alone(context, said, options.json && !lot);
  if (lot && options.json) {
    context.out << fit_json(*lot, said).text();
  } else if (lot) {
    context.out << fit_text(*lot);
  }
}

}  // namespace

void add_fit(CommandLine& line, Context& context) {
  auto options = std::make_shared<FitOptions>();
  line.add("fit", "Work out a lot's factors from the ledger, as lines for the shelf")
      .needed("LOT", options->lot, "The lot, as the shelf names it")
      .option("--plan", options->plan,
              "What this plan's strip of the lot says is taken as known before, not the defaults")
      .records(options->records)
      .json(options->json, "The fit")
      .action([options, &context] { run_fit(*options, context); });
}

}  // namespace loopledger::terminal
