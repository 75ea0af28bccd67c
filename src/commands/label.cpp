// SPDX-License-Identifier: MIT
#include "commands/label.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "base/text.h"
#include "calc/work_out.h"
#include "commands/documents.h"
#include "commands/find_record.h"
#include "commands/outcome.h"
#include "commands/plan_input.h"
#include "commands/print_setup.h"
#include "cutting/cutting_plan.h"
#include "motor/entry_checks.h"
#include "motor/motor_label.h"
#include "motor/now.h"
#include "records/ledger.h"
#include "sheets/labels.h"
#include "sheets/remnant_labels.h"

namespace loopledger::commands {
namespace {

/// The records whose labels are to be printed, each once.
class Wanted {
 public:
  explicit Wanted(Diagnostics& said) : said_(said) {}

  /// Refuses a record that the new label could not be noted in.
  void add(records::Record record) {
    if (seen_.insert(record.id).second) {
      append(said_, torn_refusal(record));
      records_.push_back(std::move(record));
    }
  }
  [[nodiscard]] std::vector<records::Record> records() && { return std::move(records_); }

 private:
  Diagnostics& said_;
  std::set<MotorId> seen_;
  std::vector<records::Record> records_;
};

/// The motors of these ids; an error when all of them are retired.
void add_by_ids(const std::vector<std::string>& ids, records::Ledger& ledger, Wanted& wanted,
                Diagnostics& said) {
  std::size_t retired = 0;
  for (const std::string& typed : ids) {
    auto found = find_record(ledger, typed);
    append(said, found.diagnostics());
    if (found && motor::now_of(found->record).state == motor::State::retired) {
      said.push_back(retired_warning(found->id, "label"));
      ++retired;
    } else if (found) {
      wanted.add(std::move(found->record));
    }
  }
  if (retired > 0 && retired == ids.size()) {
    said.push_back(error("none-label", "no motor to label is among them", "see `loopledger list`"));
  }
}

/// All motors whose label is out of date.
void add_stale(const std::string& folder, records::Ledger& ledger, Wanted& wanted,
               Diagnostics& said, World& world) {
  const auto held = ledger.holding();
  append(said, held.diagnostics());
  if (!held) {
    return;
  }
  append(said, held->passed_over);
  if (held->ids.empty()) {
    said.push_back(error("none-record", fmt::format("no records are in {}", printable(folder)),
                         "--records names the folder; `loopledger print` opens records"));
  }
  const auto progress = world.watched("reading records", held->ids.size());
  for (const MotorId& id : held->ids) {
    progress->step();
    auto record = ledger.read(id);
    append(said, record.diagnostics());
    if (record && motor::label_is_stale(*record, motor::now_of(*record))) {
      wanted.add(std::move(*record));
    }
  }
}

sheets::LabelRun bag_run(const LabelRequest& request, Units units, const PrintSetup& setup,
                         const std::string& title, const std::optional<Date>& date) {
  sheets::LabelRun run = label_run(request.labels, setup);
  run.title = title;
  run.units = units;
  run.created = creation_date(date, setup);
  return run;
}

/// Puts the labels in place. @param count how many, but for copies
void make_labels(const LabelRequest& request, const PrintSetup& setup, const std::string& name,
                 std::size_t count, Result<page::Document> document, LabelAnswer& answer,
                 World& world) {
  Documents documents(world, setup, request.out, request.overwrite);
  Diagnostics said = documents.add(name, setup.labels, std::move(document));
  if (!has_errors(said)) {
    append(said, documents.finish());
  }
  if (!has_errors(said)) {
    answer.file = documents.files().front().path;
    answer.replaced = documents.files().front().replaced;
    answer.labels = count * static_cast<std::size_t>(request.labels.copies);
  }
  append(answer.said, said);
}

/// Notes in each record what its label now says.
Diagnostics note_labelled(const std::vector<records::Record>& records, records::Ledger& ledger,
                          World& world) {
  Diagnostics said;
  const auto progress = world.watched("noting in the records", records.size());
  for (const records::Record& record : records) {
    records::Entry entry;
    entry.kind = records::Kind::labelled;
    entry.tag = motor::label_tag(record, motor::now_of(record));
    entry.key = motor::new_key(world.now(), false, entry, record, world.random_four);
    append(said, ledger.add(record.id, entry));
    progress->step();
  }
  return said;
}

void label_motors(const LabelRequest& request, const std::vector<std::string>& ids,
                  const PrintSetup& setup, LabelAnswer& answer, World& world) {
  const std::string folder = records_folder(request.records, {}, world);
  records::Ledger ledger(world.disk, folder);
  Wanted wanted(answer.said);
  add_by_ids(ids, ledger, wanted, answer.said);
  if (request.stale) {
    add_stale(folder, ledger, wanted, answer.said, world);
  }
  const auto records = std::move(wanted).records();
  if (has_errors(answer.said) || records.empty()) {
    return;
  }
  std::vector<motor::LabelFigures> figures;
  std::optional<Date> newest;
  for (const records::Record& record : records) {
    figures.push_back(motor::motor_label(record, motor::now_of(record)));
    newest = std::max(newest, figures.back().date);
  }
  const sheets::LabelRun run =
      bag_run(request, request.units.value_or(Units::metric), setup, "Bag labels", newest);
  make_labels(request, setup, "labels.pdf", records.size(),
              sheets::labels(figures, run, *setup.metrics), answer, world);
  if (has_errors(answer.said)) {
    return;
  }
  append(answer.said, note_labelled(records, ledger, world));
  for (const records::Record& record : records) {
    answer.motors.push_back(record.id);
  }
}

/// Remnants of the pieces that the plan touches, scrap left out.
std::vector<sheets::RemnantFigures> remnants_of(const plan::Plan& plan, const calc::Batch& batch) {
  std::vector<sheets::RemnantFigures> remnants;
  for (const calc::PieceCuts& cuts : batch.cutting.pieces) {
    const plan::Strip& strip = plan.strips[cuts.strip];
    if (cuts.scrap || cuts.left <= cutting::kNothingLeft) {
      continue;
    }
    sheets::RemnantFigures remnant;
    remnant.strip = strip.name;
    remnant.lot = strip.lot;
    remnant.tag = strip.pieces[cuts.piece].tag;
    remnant.width = strip.width.given ? std::optional(strip.width.value) : std::nullopt;
    remnant.left = cuts.left;
    remnant.date = plan.date.given ? std::optional(plan.date.value) : std::nullopt;
    remnants.push_back(std::move(remnant));
  }
  return remnants;
}

void label_pieces(const LabelRequest& request, const plan::Plan& plan, const PrintSetup& setup,
                  LabelAnswer& answer, World& world) {
  const auto batch = calc::work_out(plan, {.short_of_strip = request.short_of_strip});
  append(answer.said, batch.diagnostics());
  if (!batch) {
    return;
  }
  const auto date = plan.date.given ? std::optional(plan.date.value) : std::nullopt;
  const auto remnants = remnants_of(plan, *batch);
  const sheets::LabelRun run =
      bag_run(request, request.units.value_or(plan.units), setup, "Remnants of strip", date);
  make_labels(request, setup, "remnants.pdf", remnants.size(),
              sheets::remnant_labels(remnants, run, *setup.metrics), answer, world);
  answer.replaced = false;
}

/// The remnants' labels of `request.pieces`, a plan.
void label_plan(const LabelRequest& request, LabelAnswer& answer, World& world) {
  const auto input = load_plan(request.pieces, world);
  answer.said = input.diagnostics();
  if (!input) {
    return;
  }
  PrintOrder order = order_of(input->plan, {}, request.labels.stock, request.labels.layout);
  if (request.labels.layout.empty()) {
    order.slip = PrintOrder().slip;  // the plan's is for motors
  }
  const auto setup = set_up_printing(order, world);
  append(answer.said, setup.diagnostics());
  if (setup) {
    label_pieces(request, input->plan, *setup, answer, world);
  }
  quote_lines(*input, answer.said);
}

LabelAnswer not_understood(const char* expected, const char* example) {
  LabelAnswer answer;
  answer.understood = false;
  answer.said = {usage_error("missing", expected, example)};
  return answer;
}

}  // namespace

LabelAnswer label(const LabelRequest& request, World& world) {
  const std::vector<std::string> ids = parted_ids(request.ids);
  const bool motors = !ids.empty() || request.stale;
  if (motors == !request.pieces.empty()) {
    return not_understood("expected ids, --stale, or --pieces PLAN", "loopledger label th1 th2");
  }
  if (motors && request.short_of_strip) {
    return not_understood("expected --pieces PLAN with --short",
                          "loopledger label --pieces night.toml --short");
  }
  LabelAnswer answer;
  if (!motors) {
    label_plan(request, answer, world);
    return answer;
  }
  const auto setup =
      set_up_printing(order_of({}, request.labels.stock, request.labels.layout), world);
  answer.said = setup.diagnostics();
  if (setup) {
    label_motors(request, ids, *setup, answer, world);
  }
  return answer;
}

}  // namespace loopledger::commands
