// SPDX-License-Identifier: MIT
#include "commands/plan_checks.h"

#include <fmt/format.h>

#include <set>

#include "calc/rule_parts.h"
#include "commands/plan_input.h"
#include "records/reads_back.h"
#include "tag/id.h"

namespace loopledger::commands {
namespace {

/// What to look at for a figure that no record takes.
Place place_of(const std::string& problem, const plan::Plan& plan, const plan::MotorGroup& group) {
  if (problem.find("cranks:") != std::string::npos && plan.bench.winder_ratio.given) {
    return plan.bench.winder_ratio.place;
  }
  for (const Place& place : {group.loop.place, group.mass.place}) {
    if (place.line > 0) {
      return place;
    }
  }
  return group.place;
}

/// Each group once, by its first motor: the others differ in their ids and pieces alone.
Diagnostics unreadable_records(const plan::Plan& plan, const calc::Batch& batch) {
  Diagnostics said;
  std::set<std::size_t> seen;
  for (const calc::MotorFigures& motor : batch.motors) {
    if (!seen.insert(motor.group).second) {
      continue;
    }
    const Diagnostics problems =
        records::new_record_problems({motor.id, tag::check_character(motor.id), motor.planned});
    for (const Diagnostic& d : problems) {
      said.push_back(error("plan-record", d.message, d.hint,
                           place_of(d.message, plan, plan.motors[motor.group])));
    }
  }
  return said;
}

}  // namespace

Diagnostics check_batch(const plan::Plan& plan, const calc::Batch& batch) {
  Diagnostics said = calc::check_rule_parts(plan, batch);
  append(said, unreadable_records(plan, batch));
  return said;
}

Diagnostics check_names(const plan::Plan& plan, World& world) {
  Diagnostics said;
  for (const auto* stock : {&plan.paper, &plan.labels}) {
    if (stock->given) {
      append(said, load_stock(stock->value, plan.file, stock->place, world).diagnostics());
    }
  }
  if (plan.slip.given) {
    append(said, load_layout(plan.slip.value, plan.file, plan.slip.place, world).diagnostics());
  }
  return said;
}

}  // namespace loopledger::commands
