// SPDX-License-Identifier: MIT
//
// `label ID...`: labels with the figures as they now stand. `--stale` prints those that are out of
// date, `--pieces PLAN` labels for the remnants that a night leaves.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <ostream>
#include <set>

#include "base/text.h"
#include "calc/work_out.h"
#include "commands/documents.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/outcome.h"
#include "commands/paths.h"
#include "commands/plan_input.h"
#include "commands/print_setup.h"
#include "cutting/cutting_plan.h"
#include "json/json.h"
#include "motor/entry_checks.h"
#include "motor/motor_label.h"
#include "motor/now.h"
#include "pdf/write_pdf.h"
#include "posix/files.h"
#include "posix/posix_disk.h"
#include "posix/random_key.h"
#include "records/fields.h"
#include "records/ledger.h"
#include "sheets/remnant_labels.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/label_sheet.h"

namespace loopledger::terminal {
namespace {

struct LabelOptions {
  std::vector<std::string> ids;
  std::string pieces;  ///< a plan
  std::string records;
  std::string out = "out";
  std::optional<Units> units;
  LabelSheetOptions labels;
  bool stale = false;
  bool short_of_strip = false;  ///< of `pieces`
  bool overwrite = false;
  bool json = false;
};

/// What was printed; without a path nothing was.
struct Labelled {
  std::string path;
  std::size_t labels = 0;
  std::vector<MotorId> motors;  ///< none for remnants
  bool replaced = false;        ///< a file of that path was there
};

/// The records whose labels are to be printed, each once.
class Wanted {
 public:
  explicit Wanted(Diagnostics& said) : said_(said) {}

  /// Refuses a record that the new label could not be noted in.
  void add(records::Record record) {
    if (seen_.insert(record.id).second) {
      append(said_, commands::torn_refusal(record));
      records_.push_back(std::move(record));
    }
  }
  [[nodiscard]] std::vector<records::Record> records() && { return std::move(records_); }

 private:
  Diagnostics& said_;
  std::set<MotorId> seen_;
  std::vector<records::Record> records_;
};

/// The motors of the ids typed; an error when all of them are retired.
void add_by_ids(const std::vector<std::string>& ids, records::Ledger& ledger, Wanted& wanted,
                Diagnostics& said) {
  std::size_t retired = 0;
  for (const std::string& typed : ids) {
    auto found = commands::find_record(ledger, typed);
    append(said, found.diagnostics());
    if (found && motor::now_of(found->record).state == motor::State::retired) {
      said.push_back(commands::retired_warning(found->id, "label"));
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
               Diagnostics& said, Context& context) {
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
  const auto progress = context.world.watched("reading records", held->ids.size());
  for (const MotorId& id : held->ids) {
    progress->step();
    auto record = ledger.read(id);
    append(said, record.diagnostics());
    if (record && motor::label_is_stale(*record, motor::now_of(*record))) {
      wanted.add(std::move(*record));
    }
  }
}

std::vector<records::Record> records_asked_for(const LabelOptions& options,
                                               const std::string& folder, records::Ledger& ledger,
                                               Diagnostics& said, Context& context) {
  Wanted wanted(said);
  add_by_ids(options.ids, ledger, wanted, said);
  if (options.stale) {
    add_stale(folder, ledger, wanted, said, context);
  }
  return std::move(wanted).records();
}

sheets::LabelRun bag_run(const LabelOptions& options, const commands::PrintSetup& setup,
                         const std::string& title, const std::optional<Date>& date) {
  sheets::LabelRun run = label_run(options.labels, setup);
  run.title = title;
  run.units = options.units.value_or(Units::metric);
  run.created = commands::creation_date(date, setup);
  return run;
}

/// The PDF, written beside its place; `path` is set to that place.
Result<posix::PendingFile> made(Result<page::Document> document, const commands::PrintSetup& setup,
                                const LabelOptions& options, const std::string& name,
                                std::string& path, commands::World& world) {
  Diagnostics problems = document.diagnostics();
  if (!document) {
    return problems;
  }
  append(problems, commands::correct_for_printer(*document, setup.labels, setup, name));
  auto bytes = pdf::write_pdf(*document, setup.fonts);
  append(problems, bytes.diagnostics());
  path = (std::filesystem::path(options.out) / name).string();
  append(problems, commands::foreign_files({path}, options.overwrite, world));
  append(problems, has_errors(problems) ? Diagnostics{} : posix::make_folder(options.out));
  if (has_errors(problems)) {
    return problems;
  }
  auto file = posix::PendingFile::write(path, *bytes);
  append(problems, file.diagnostics());
  if (!file) {
    return problems;
  }
  return {std::move(*file), std::move(problems)};
}

void say_written(const Labelled& done, const LabelOptions& options, const Diagnostics& said,
                 Context& context) {
  const std::size_t all = done.labels * static_cast<std::size_t>(options.labels.copies);
  if (options.json) {
    json::Json ids = json::Json::array();
    for (const MotorId& id : done.motors) {
      ids.push(printed(id));
    }
    json::Json out = json::Json::object();
    out.set("format", 1).set("file", done.path.empty() ? json::Json() : json::Json(done.path));
    out.set("labels", all).set("motors", std::move(ids)).set("diagnostics", json::to_json(said));
    context.out << out.text();
  } else if (!done.path.empty()) {
    context.out << fmt::format("Wrote {} ({} label{}){}\n", done.path, all, all == 1 ? "" : "s",
                               done.replaced ? ", in place of the file that was there" : "");
  } else if (!has_errors(said)) {
    context.out << "No label is out of date.\n";
  }
}

/// Notes in each record what its label now says.
Diagnostics note_labelled(const std::vector<records::Record>& records, records::Ledger& ledger,
                          Context& context) {
  Diagnostics said;
  const auto progress = context.world.watched("noting in the records", records.size());
  for (const records::Record& record : records) {
    records::Entry entry;
    entry.kind = records::Kind::labelled;
    entry.tag = motor::label_tag(record, motor::now_of(record));
    entry.key =
        motor::new_key(context.world.now(), false, entry, record, context.world.random_four);
    append(said, ledger.add(record.id, entry));
    progress->step();
  }
  return said;
}

Diagnostics label_motors(const LabelOptions& options, const commands::PrintSetup& setup,
                         Labelled& done, Context& context) {
  records::Disk& disk = context.world.disk;
  const std::string folder = commands::records_folder(options.records, {}, context.world);
  records::Ledger ledger(disk, folder);
  Diagnostics said;
  const auto records = records_asked_for(options, folder, ledger, said, context);
  if (has_errors(said) || records.empty()) {
    return said;
  }
  std::vector<motor::LabelFigures> figures;
  std::optional<Date> newest;
  for (const records::Record& record : records) {
    figures.push_back(motor::motor_label(record, motor::now_of(record)));
    newest = std::max(newest, figures.back().date);
  }
  const sheets::LabelRun run = bag_run(options, setup, "Bag labels", newest);
  std::string path;
  auto file = made(sheets::labels(figures, run, *setup.metrics), setup, options, "labels.pdf", path,
                   context.world);
  append(said, file.diagnostics());
  if (!file) {
    return said;
  }
  const bool replaced = std::filesystem::exists(path);
  append(said, file->commit());
  if (!has_errors(said)) {
    append(said, note_labelled(records, ledger, context));
    done = {path, records.size(), {}, replaced};
    for (const records::Record& record : records) {
      done.motors.push_back(record.id);
    }
  }
  return said;
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

Diagnostics label_pieces(LabelOptions options, const commands::PlanInput& input,
                         const commands::PrintSetup& setup, Labelled& done, Context& context) {
  const plan::Plan& plan = input.plan;
  const auto batch = calc::work_out(plan, {.short_of_strip = options.short_of_strip});
  Diagnostics said = batch.diagnostics();
  if (!batch) {
    return said;
  }
  options.units = options.units.value_or(plan.units);
  const auto date = plan.date.given ? std::optional(plan.date.value) : std::nullopt;
  const auto remnants = remnants_of(plan, *batch);
  std::string path;
  auto file =
      made(sheets::remnant_labels(remnants, bag_run(options, setup, "Remnants of strip", date),
                                  *setup.metrics),
           setup, options, "remnants.pdf", path, context.world);
  append(said, file.diagnostics());
  if (file) {
    append(said, file->commit());
  }
  if (!has_errors(said)) {
    done = {path, remnants.size(), {}, false};
  }
  return said;
}

/// The remnants' labels of `options.pieces`, a plan.
Diagnostics label_plan(const LabelOptions& options, commands::PrintOrder order, Labelled& done,
                       Context& context) {
  const auto input = commands::load_plan(options.pieces, context.world);
  Diagnostics said = input.diagnostics();
  if (!input) {
    return said;
  }
  const plan::Plan& plan = input->plan;
  order.beside = plan.file;
  order.paper = {plan.paper.value, plan.paper.place};
  if (!order.labels && plan.labels.given) {
    order.labels = commands::TemplateName{plan.labels.value, plan.labels.place};
  }
  const auto setup = commands::set_up_printing(order, context.world);
  append(said, setup.diagnostics());
  if (setup) {
    append(said, label_pieces(options, *input, *setup, done, context));
  }
  commands::quote_lines(*input, said);
  return said;
}

void run_label(const LabelOptions& options, Context& context) {
  const bool motors = !options.ids.empty() || options.stale;
  if (motors == !options.pieces.empty()) {
    context.exit_code =
        report_alone(context,
                     {commands::usage_error("missing", "expected ids, --stale, or --pieces PLAN",
                                            "loopledger label th1 th2")},
                     options.json);
    return;
  }
  if (motors && options.short_of_strip) {
    context.exit_code =
        report_alone(context,
                     {commands::usage_error("missing", "expected --pieces PLAN with --short",
                                            "loopledger label --pieces night.toml --short")},
                     options.json);
    return;
  }
  const commands::PrintOrder order =
      commands::order_of({}, options.labels.stock, options.labels.layout);
  Labelled done;
  Diagnostics said;
  if (motors) {
    const auto setup = commands::set_up_printing(order, context.world);
    said = setup.diagnostics();
    if (setup) {
      append(said, label_motors(options, *setup, done, context));
    }
  } else {
    said = label_plan(options, order, done, context);
  }
  context.exit_code = report(context, said);
  say_written(done, options, said, context);
}

}  // namespace

void add_label(CommandLine& line, Context& context) {
  auto options = std::make_shared<LabelOptions>();
  line.add("label", "Print labels with the figures as they now stand")
      .words("ID", options->ids, "The motors, such as th1 th2")
      .flag("--stale", options->stale, "All motors whose label is out of date")
      .option("--pieces", options->pieces, "Labels for the remnants that this plan leaves")
      .flag("--short", options->short_of_strip,
            "With --pieces: what is left when the pieces don't reach")
      .label_sheet(options->labels)
      .option("--out", options->out, "Folder for the PDF (default: out)")
      .records(options->records)
      .flag("--overwrite", options->overwrite, "Replace a file that this program did not write")
      .units(options->units)
      .json(options->json, "What was written")
      .action([options, &context] {
        options->ids = commands::parted_ids(options->ids);
        run_label(*options, context);
      });
}

}  // namespace loopledger::terminal
