// SPDX-License-Identifier: MIT
#include "commands/fit.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "base/text.h"
#include "calc/fit.h"
#include "commands/find_record.h"
#include "commands/motor_rows.h"
#include "commands/paths.h"
#include "commands/plan_input.h"
#include "motor/lot_data.h"
#include "records/ledger.h"

namespace loopledger::commands {
namespace {

std::string plain(const std::string& text) { return lower_ascii(trimmed(text)); }

Diagnostic no_such_lot(const MotorRows& all, const std::string& asked) {
  std::vector<std::string> lots;
  for (const MotorRow& row : all.rows) {
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
Diagnostics take_prior(const plan::Plan& plan, motor::LotFactors& lot) {
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

Result<motor::LotFactors> fitted(const FitRequest& request, const std::string& folder,
                                 const plan::Plan* plan, World& world) {
  const auto of_lot = read_ledger(world, folder, [&](const MotorRow& row) {
    return is_of_lot(row.lot, row.strip, request.lot);
  });
  Diagnostics said = of_lot.diagnostics();
  if (!of_lot) {
    return said;
  }
  if (of_lot->rows.empty()) {
    said.push_back(
        no_such_lot(read_motors(world, folder, of_lot->ids, [](const MotorRow&) { return true; }),
                    request.lot));
    return said;
  }
  records::Ledger ledger(world.disk, folder);
  motor::LotFactors lot;
  const MotorRow& first = of_lot->rows.front();
  lot.lot = lot_name(first.lot, first.strip);
  lot.turns_prior = {calc::kTurnsFactor, calc::kFitTurnsU};
  lot.torque_prior = {calc::kTorqueFactor.in_mpa(), calc::kTorqueFactorU};
  lot.prior_from = "the defaults";
  if (plan != nullptr) {
    append(said, take_prior(*plan, lot));
  }
  for (const MotorRow& row : of_lot->rows) {
    if (const auto record = ledger.read(row.id)) {
      motor::add_to_lot(*record, lot.turns_prior.value, lot.torque_prior.value, lot.data);
    }
  }
  lot.turns = calc::fit_lot(lot.turns_prior, lot.data.turns);
  lot.torque = calc::fit_lot(lot.torque_prior, lot.data.torque);
  return {std::move(lot), std::move(said)};
}

}  // namespace

FitAnswer fit(const FitRequest& request, World& world) {
  FitAnswer answer;
  std::optional<PlanInput> input;
  std::string from_plan;
  if (!request.plan.empty()) {
    auto loaded = load_plan(request.plan, world);
    append(answer.said, loaded.diagnostics());
    if (!loaded) {
      return answer;
    }
    input = std::move(*loaded);
    from_plan = beside(request.plan, input->plan.records.value);
  }
  auto lot = fitted(request, records_folder(request.records, from_plan, world),
                    input ? &input->plan : nullptr, world);
  append(answer.said, lot.diagnostics());
  if (input) {
    quote_lines(*input, answer.said);
  }
  if (lot) {
    answer.lot = std::move(*lot);
  }
  return answer;
}

}  // namespace loopledger::commands
