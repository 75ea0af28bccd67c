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
#include "cli/command.h"
#include "cli/command_line.h"
#include "cli/exit_code.h"
#include "cli/files.h"
#include "cli/fit_data.h"
#include "cli/fit_view.h"
#include "cli/list_rows.h"
#include "cli/plan_input.h"
#include "cli/posix_disk.h"
#include "records/ledger.h"

namespace loopledger::cli {
namespace {

struct FitOptions {
  std::string lot;
  std::string plan;
  std::string records;
  bool json = false;
};

std::string plain(const std::string& text) { return lower_ascii(trimmed(text)); }

Diagnostic no_such_lot(const ListReading& all, const std::string& asked) {
  std::vector<std::string> lots;
  for (const ListRow& row : all.rows) {
    lots.push_back(lot_name(row.lot, row.strip));
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
  const auto strip = std::ranges::find_if(
      plan.strips, [&](const plan::Strip& s) { return is_of_lot(s.lot, s.name, lot.lot); });
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
  PosixDisk disk;
  records::Ledger ledger(disk, folder);
  const auto held = ledger.holding();
  if (!held) {
    return held.diagnostics();
  }
  const ListReading of_lot = read_list(context, folder, held->ids, [&](const ListRow& row) {
    return is_of_lot(row.lot, row.strip, options.lot);
  });
  Diagnostics said = held->passed_over;
  append(said, of_lot.problems);
  if (of_lot.rows.empty()) {
    said.push_back(no_such_lot(
        read_list(context, folder, held->ids, [](const ListRow&) { return true; }), options.lot));
    return said;
  }
  LotFactors lot;
  const ListRow& first = of_lot.rows.front();
  lot.lot = lot_name(first.lot, first.strip);
  lot.turns_prior = {calc::kTurnsFactor, calc::kFitTurnsU};
  lot.torque_prior = {calc::kTorqueFactor.in_mpa(), calc::kTorqueFactorU};
  lot.prior_from = "the defaults";
  if (plan != nullptr) {
    append(said, take_prior(*plan, lot));
  }
  for (const ListRow& row : of_lot.rows) {
    if (const auto record = ledger.read(row.id)) {
      add_to_lot(*record, lot.turns_prior.value, lot.torque_prior.value, lot.data);
    }
  }
  lot.turns = calc::fit_lot(lot.turns_prior, lot.data.turns);
  lot.torque = calc::fit_lot(lot.torque_prior, lot.data.torque);
  return {std::move(lot), std::move(said)};
}

void run_fit(const FitOptions& options, Context& context) {
  std::string from_plan;
  std::optional<PlanInput> input;
  Diagnostics said;
  if (!options.plan.empty()) {
    auto loaded = load_plan(options.plan, context);
    append(said, loaded.diagnostics());
    if (!loaded) {
      context.exit_code = report_alone(context, said, options.json);
      return;
    }
    input = std::move(*loaded);
    from_plan = beside(options.plan, input->plan.records.value);
  }
  const std::string folder = records_folder(options.records, from_plan, context);
  const auto lot = fitted(options, folder, input ? &input->plan : nullptr, context);
  append(said, lot.diagnostics());
  if (input) {
    quote_lines(*input, said);
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

}  // namespace loopledger::cli
