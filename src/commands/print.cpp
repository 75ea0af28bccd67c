// SPDX-License-Identifier: MIT
#include "commands/print.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>

#include "calc/work_out.h"
#include "commands/find_record.h"
#include "commands/outcome.h"
#include "commands/paths.h"
#include "commands/plan_checks.h"
#include "commands/plan_input.h"
#include "commands/print_records.h"
#include "commands/print_setup.h"
#include "records/ledger.h"
#include "sheets/break_in_sheet.h"
#include "sheets/cut_sheet.h"
#include "sheets/labels.h"
#include "tag/id.h"

namespace loopledger::commands {
namespace {

bool in_plan(const plan::Plan& plan, const MotorId& id) {
  return std::ranges::any_of(plan.motors, [&](const plan::MotorGroup& group) {
    return group.stem.value == id.stem && id.number >= group.first.value &&
           id.number < group.first.value + group.count.value;
  });
}

/// The ids that were typed, each of them in the plan.
Result<std::vector<MotorId>> ids_asked_for(const std::vector<std::string>& only,
                                           const plan::Plan& plan) {
  std::vector<MotorId> ids;
  Diagnostics problems;
  for (const std::string& typed : only) {
    auto id = tag::id_from(typed);
    append(problems, id.diagnostics());
    if (!id) {
      continue;
    }
    if (!in_plan(plan, id->id)) {
      problems.push_back(error("print-only",
                               fmt::format("the plan has no motor {}", printed(id->id)),
                               "--only takes ids of this plan"));
    }
    ids.push_back(id->id);
  }
  if (has_errors(problems)) {
    return problems;
  }
  return ids;
}

/// All of the plan's motors that the ledger does not hold.
Result<std::vector<MotorId>> without_record(const plan::Plan& plan, records::Ledger& ledger) {
  auto held = ledger.holding();
  if (!held) {
    return held.diagnostics();
  }
  std::vector<MotorId> ids;
  for (const plan::MotorGroup& group : plan.motors) {
    for (int i = 0; i < group.count.value; ++i) {
      MotorId id{group.stem.value, group.first.value + i};
      if (!std::ranges::binary_search(held->ids, id)) {
        ids.push_back(std::move(id));
      }
    }
  }
  if (ids.empty()) {
    Diagnostics problems = std::move(held->passed_over);
    problems.push_back(error("print-new", "every motor of the plan has a record: nothing is new",
                             "print without --new prints them again"));
    return problems;
  }
  return ids;
}

/// Labels of the motors that are cut tonight or stand in the ledger; none of one that broke.
std::vector<motor::LabelFigures> labels_of(const calc::Batch& batch, const PrintAgain& again) {
  std::vector<motor::LabelFigures> figures;
  for (const calc::MotorFigures& motor : batch.motors) {
    if (motor.cut && !motor.over) {
      const motor::LabelFigures* const now = again.label_of(motor.id);
      figures.push_back(now != nullptr ? *now : motor::label_figures(motor));
    }
  }
  return figures;
}

/// The night's papers. Nothing is written yet.
Diagnostics add_papers(const plan::Plan& plan, const calc::Batch& batch, const PrintAgain& again,
                       const LabelSheetOptions& labels, const PrintSetup& setup,
                       Documents& documents) {
  const auto created =
      creation_date(plan.date.given ? std::optional(plan.date.value) : std::nullopt, setup);
  Diagnostics said =
      documents.add("cut-sheet.pdf", setup.paper,
                    sheets::cut_sheet(plan, batch, setup.paper, *setup.metrics, created));
  append(said,
         documents.add("break-in.pdf", setup.paper,
                       sheets::break_in_sheet(plan, batch, setup.paper, *setup.metrics, created)));
  if (const auto figures = labels_of(batch, again); !figures.empty()) {
    sheets::LabelRun run = label_run(labels, setup);
    run.title = plan.title;
    run.link = plan.link.given ? plan.link.value : std::string{};
    run.units = plan.units;
    run.created = created;
    append(said,
           documents.add("labels.pdf", setup.labels, sheets::labels(figures, run, *setup.metrics)));
  }
  return said;
}

/// Documents beside their places, records opened, documents in place.
Diagnostics write_out(Documents& documents, const std::vector<records::NewRecord>& to_open,
                      records::Ledger& ledger, World& world) {
  if (Diagnostics problems = documents.write(); has_errors(problems)) {
    return problems;
  }
  const auto progress = world.watched("opening records", to_open.size());
  Diagnostics problems = ledger.open(to_open, [&progress] { progress->step(); });
  if (!has_errors(problems)) {
    append(problems, documents.commit());
  }
  return problems;
}

/// What was asked for is no default.
plan::Placed<std::string> named_or(const std::string& asked,
                                   const plan::Placed<std::string>& in_plan) {
  return asked.empty() ? in_plan
                       : plan::Placed<std::string>{.value = asked, .place = {}, .given = true};
}

/// The plan as this request has it printed.
void take_request(plan::Plan& plan, const PrintRequest& request) {
  plan.units = request.units.value_or(plan.units);
  plan.units_given = plan.units_given || request.units.has_value();
  plan.paper = named_or(request.paper, plan.paper);
  plan.labels = named_or(request.labels.stock, plan.labels);
}

/// Which motors are worked out: all, those asked for, or those that are new.
Diagnostics choose_motors(const PrintRequest& request, const plan::Plan& plan,
                          records::Ledger& ledger, calc::WorkOptions& options) {
  const std::vector<std::string> only = parted_ids(request.only);
  if (only.empty() && !request.new_only) {
    return {};
  }
  auto ids = request.new_only ? without_record(plan, ledger) : ids_asked_for(only, plan);
  if (ids) {
    options.only = std::move(*ids);
  }
  return ids.diagnostics();
}

void print_plan(const PrintRequest& request, plan::Plan& plan, PrintAnswer& answer, World& world) {
  Diagnostics& said = answer.said;
  take_request(plan, request);
  const std::string folder = request.out.empty() ? beside(request.plan, "out") : request.out;
  const std::string records =
      records_folder(request.records, beside(request.plan, plan.records.value), world);
  records::Ledger ledger(world.disk, records);
  calc::WorkOptions work_options{.short_of_strip = request.short_of_strip};
  append(said, choose_motors(request, plan, ledger, work_options));
  if (has_errors(said)) {
    return;
  }
  auto batch = calc::work_out(plan, work_options);
  append(said, batch.diagnostics());
  const auto setup = set_up_printing(
      order_of(plan, request.paper, request.labels.stock, request.labels.layout), world);
  append(said, setup.diagnostics());
  if (batch) {
    append(said, check_batch(plan, *batch));
  }
  if (!batch || !setup || has_errors(said)) {
    return;
  }
  const auto work = compare_with_ledger(*batch, plan, ledger, work_options.only.has_value());
  append(said, work.diagnostics());
  Documents documents(world, *setup, folder, request.overwrite);
  append(said, add_papers(plan, *batch, work ? work->again : PrintAgain(), request.labels, *setup,
                          documents));
  if (has_errors(said)) {
    return;
  }
  append(said, write_out(documents, work->to_open, ledger, world));
  if (has_errors(said)) {
    return;
  }
  answer.files = documents.files();
  answer.records = records;
  std::ranges::transform(work->to_open, std::back_inserter(answer.opened), &records::NewRecord::id);
  answer.kept = work->kept;
  answer.batch = std::move(*batch);
}

}  // namespace

PrintAnswer print(const PrintRequest& request, World& world) {
  PrintAnswer answer;
  if (request.plan.empty()) {
    answer.said = {usage_error("missing", "expected a plan", "loopledger print night.toml")};
    return answer;
  }
  auto input = load_plan(request.plan, world);
  answer.said = input.diagnostics();
  if (!input) {
    return answer;
  }
  print_plan(request, input->plan, answer, world);
  quote_lines(*input, answer.said);
  if (!has_errors(answer.said)) {
    answer.plan = std::move(input->plan);
  }
  return answer;
}

}  // namespace loopledger::commands
