// SPDX-License-Identifier: MIT
#include "commands/bench.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "commands/find_record.h"
#include "commands/outcome.h"
#include "commands/paths.h"
#include "commands/plan_input.h"
#include "commands/winder_today.h"

namespace loopledger::commands {
namespace {

/// The plan's motors that have a record; what has none is told.
std::vector<MotorId> motors_of(const plan::Plan& plan, records::Ledger& ledger, Diagnostics& said) {
  std::vector<MotorId> ids;
  std::size_t missing = 0;
  const auto held = ledger.holding();
  append(said, held ? held->passed_over : held.diagnostics());
  for (const plan::MotorGroup& group : plan.motors) {
    for (int i = 0; held && i < group.count.value; ++i) {
      MotorId id{group.stem.value, group.first.value + i};
      if (std::ranges::binary_search(held->ids, id)) {
        ids.push_back(std::move(id));
      } else {
        ++missing;
      }
    }
  }
  if (ids.empty() && held) {
    said.push_back(error("none-record", "no motor of this plan has a record yet",
                         "`loopledger print` opens them"));
  } else if (missing > 0) {
    said.push_back(warning("bench-missing",
                           fmt::format("{} of the plan's motors have no record yet", missing),
                           "`loopledger print` opens them"));
  }
  return ids;
}

}  // namespace

BenchAnswer bench(const BenchRequest& request, World& world) {
  BenchAnswer answer;
  if (request.plan == "-") {
    answer.said = {usage_error("value",
                               "expected a plan's file: standard input brings the readings",
                               "loopledger bench night.toml")};
    return answer;
  }
  const auto input = load_plan(request.plan, world);
  answer.said = input.diagnostics();
  if (!input) {
    return answer;
  }
  const plan::Plan& plan = input->plan;
  records::Ledger ledger(
      world.disk, records_folder(request.records, beside(request.plan, plan.records.value), world));
  BenchSetup setup;
  setup.motors = motors_of(plan, ledger, answer.said);
  setup.units = request.units.value_or(plan.units);
  const auto ratio = todays_winder_ratio(request.winder_ratio, &plan, world);
  append(answer.said, ratio.diagnostics());
  setup.winder_ratio = ratio ? *ratio : std::nullopt;
  setup.long_help = request.long_help;
  setup.scale_error = plan.bench.scale_error.value;
  setup.scale_step = plan.bench.scale_step.value;
  if (!has_errors(answer.said)) {
    answer.dialogue.emplace(world, std::move(ledger), std::move(setup));
  }
  return answer;
}

}  // namespace loopledger::commands
