// SPDX-License-Identifier: MIT
//
// `print PLAN`: cut sheet, break-in sheet and labels as PDF, and a record for each motor. PDFs go
// to temporary files first, then the records are opened, then the PDFs are renamed: whatever stops
// it on the way, doing it again is harmless.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <ostream>

#include "base/text.h"
#include "calc/work_out.h"
#include "commands/documents.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/outcome.h"
#include "commands/paths.h"
#include "commands/plan_checks.h"
#include "commands/plan_input.h"
#include "commands/print_setup.h"
#include "json/json.h"
#include "pdf/fonts.h"
#include "pdf/write_pdf.h"
#include "posix/files.h"
#include "posix/posix_disk.h"
#include "records/ledger.h"
#include "sheets/break_in_sheet.h"
#include "sheets/cut_sheet.h"
#include "sheets/labels.h"
#include "tag/id.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/cutting_text.h"
#include "terminal/label_sheet.h"
#include "terminal/print_again.h"
#include "terminal/print_records.h"
#include "terminal/print_test_page.h"

namespace loopledger::terminal {
namespace {

struct PrintOptions {
  std::string plan;
  std::string records;
  std::string out;
  std::vector<std::string> only;
  std::optional<Units> units;
  LabelSheetOptions labels;
  std::string paper;
  bool test_page = false;
  bool new_only = false;
  bool short_of_strip = false;
  bool overwrite = false;
  bool json = false;
};

bool in_plan(const plan::Plan& plan, const MotorId& id) {
  return std::ranges::any_of(plan.motors, [&](const plan::MotorGroup& group) {
    return group.stem.value == id.stem && id.number >= group.first.value &&
           id.number < group.first.value + group.count.value;
  });
}

/// The ids of `--only`, each of them in the plan.
Result<std::vector<MotorId>> ids_asked_for(const PrintOptions& options, const plan::Plan& plan) {
  std::vector<MotorId> ids;
  Diagnostics problems;
  for (const std::string& typed : options.only) {
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

struct Printed {
  std::string path;
  std::size_t pages = 0;
  std::string bytes;
};

class Printer {
 public:
  Printer(const plan::Plan& plan, const calc::Batch& batch, const PrintAgain& again,
          const PrintOptions& options, const commands::PrintSetup& setup,
          std::optional<Moment> created, std::string folder)
      : plan_(plan),
        batch_(batch),
        again_(again),
        options_(options),
        setup_(setup),
        created_(created),
        folder_(std::move(folder)) {}

  /// All documents as bytes; nothing is written yet.
  Result<std::vector<Printed>> documents() {
    add("cut-sheet.pdf", setup_.paper,
        sheets::cut_sheet(plan_, batch_, setup_.paper, *setup_.metrics, created_));
    add("break-in.pdf", setup_.paper,
        sheets::break_in_sheet(plan_, batch_, setup_.paper, *setup_.metrics, created_));
    if (const auto figures = label_figures(); !figures.empty()) {
      add("labels.pdf", setup_.labels, labels(figures));
    }
    if (has_errors(problems_)) {
      return problems_;
    }
    return {std::move(printed_), std::move(problems_)};
  }

 private:
  /// Of the motors that are cut tonight or stand in the ledger; none of one that broke.
  [[nodiscard]] std::vector<motor::LabelFigures> label_figures() const {
    std::vector<motor::LabelFigures> figures;
    for (const calc::MotorFigures& motor : batch_.motors) {
      if (motor.cut && !motor.over) {
        const motor::LabelFigures* const now = again_.label_of(motor.id);
        figures.push_back(now != nullptr ? *now : motor::label_figures(motor));
      }
    }
    return figures;
  }

  Result<page::Document> labels(const std::vector<motor::LabelFigures>& figures) {
    sheets::LabelRun run = label_run(options_.labels, setup_);
    run.title = plan_.title;
    run.link = plan_.link.given ? plan_.link.value : std::string{};
    run.units = plan_.units;
    run.created = created_;
    return sheets::labels(figures, run, *setup_.metrics);
  }

  void add(const std::string& name, const plan::Stock& stock, Result<page::Document> document) {
    append(problems_, document.diagnostics());
    if (!document) {
      return;
    }
    append(problems_, commands::correct_for_printer(*document, stock, setup_, name));
    auto bytes = pdf::write_pdf(*document, setup_.fonts);
    append(problems_, bytes.diagnostics());
    if (bytes) {
      printed_.push_back({(std::filesystem::path(folder_) / name).string(), document->pages.size(),
                          std::move(*bytes)});
    }
  }

  const plan::Plan& plan_;
  const calc::Batch& batch_;
  const PrintAgain& again_;
  const PrintOptions& options_;
  const commands::PrintSetup& setup_;
  std::optional<Moment> created_;
  std::string folder_;
  Diagnostics problems_;
  std::vector<Printed> printed_;
};

Diagnostics write_out(const std::vector<Printed>& files, const std::string& folder, bool overwrite,
                      const std::vector<records::NewRecord>& to_open, records::Ledger& ledger,
                      Context& context) {
  std::vector<std::string> paths;
  std::ranges::transform(files, std::back_inserter(paths), &Printed::path);
  if (Diagnostics problems = commands::foreign_files(paths, overwrite, context.world);
      has_errors(problems)) {
    return problems;
  }
  if (Diagnostics problems = posix::make_folder(folder); has_errors(problems)) {
    return problems;
  }
  std::vector<posix::PendingFile> pending;
  for (const Printed& file : files) {
    auto written = posix::PendingFile::write(file.path, file.bytes);
    if (!written) {
      return written.diagnostics();
    }
    pending.push_back(std::move(*written));
  }
  const auto progress = context.world.watched("opening records", to_open.size());
  Diagnostics problems = ledger.open(to_open, [&progress] { progress->step(); });
  if (has_errors(problems)) {
    return problems;
  }
  for (posix::PendingFile& file : pending) {
    append(problems, file.commit());
  }
  return problems;
}

void say(const std::vector<Printed>& files, const RecordWork& work, const std::string& records,
         const plan::Plan& plan, const calc::Batch& batch, const PrintOptions& options,
         const Diagnostics& said, Context& context) {
  if (options.json) {
    json::Json paths = json::Json::array();
    for (const Printed& file : files) {
      paths.push(file.path);
    }
    json::Json opened = json::Json::array();
    for (const records::NewRecord& record : work.to_open) {
      opened.push(printed(record.id));
    }
    json::Json out = json::Json::object();
    out.set("format", 1).set("files", std::move(paths)).set("records", records);
    out.set("opened", std::move(opened)).set("kept", work.kept);
    out.set("shelf_after", shelf_json(plan, batch));
    out.set("diagnostics", json::to_json(said));
    context.out << out.text();
    return;
  }
  for (const Printed& file : files) {
    context.out << fmt::format("Wrote {} ({} page{})\n", file.path, file.pages,
                               file.pages == 1 ? "" : "s");
  }
  context.out << fmt::format("Opened {} record{} in {}", work.to_open.size(),
                             work.to_open.size() == 1 ? "" : "s", records);
  context.out << (work.kept > 0 ? fmt::format("; {} {} there already, unchanged\n", work.kept,
                                              work.kept == 1 ? "was" : "were")
                                : std::string("\n"));
  if (const std::string shelf = shelf_lines(plan, batch); !shelf.empty()) {
    context.out << "When all is cut, the shelf's pieces are:\n" << shelf;
  }
}

/// What the command line names is no default.
plan::Placed<std::string> named_or(const std::string& option,
                                   const plan::Placed<std::string>& in_plan) {
  return option.empty() ? in_plan
                        : plan::Placed<std::string>{.value = option, .place = {}, .given = true};
}

/// What the plan names, unless the command line names another.
commands::PrintOrder print_order(const plan::Plan& plan, const PrintOptions& options) {
  commands::PrintOrder order =
      commands::order_of(options.paper, options.labels.stock, options.labels.layout);
  order.beside = plan.file;
  if (options.paper.empty()) {
    order.paper = {plan.paper.value, plan.paper.place};
  }
  if (options.labels.stock.empty() && plan.labels.given) {
    order.labels = commands::TemplateName{plan.labels.value, plan.labels.place};
  }
  if (options.labels.layout.empty()) {
    order.slip = {plan.slip.value, plan.slip.place};
  }
  return order;
}

/// Everything up to the writing; what is wrong comes back in `said`.
void print_plan(const PrintOptions& options, commands::PlanInput& input, Diagnostics& said,
                Context& context) {
  plan::Plan& plan = input.plan;
  plan.units = options.units.value_or(plan.units);
  plan.units_given = plan.units_given || options.units.has_value();
  plan.paper = named_or(options.paper, plan.paper);
  plan.labels = named_or(options.labels.stock, plan.labels);
  const std::string folder =
      options.out.empty() ? commands::beside(options.plan, "out") : options.out;
  const std::string records = commands::records_folder(
      options.records, commands::beside(options.plan, plan.records.value), context.world);
  records::Disk& disk = context.world.disk;
  records::Ledger ledger(disk, records);

  calc::WorkOptions work_options{.short_of_strip = options.short_of_strip};
  if (!options.only.empty() || options.new_only) {
    auto ids = options.new_only ? without_record(plan, ledger) : ids_asked_for(options, plan);
    append(said, ids.diagnostics());
    if (!ids) {
      return;
    }
    work_options.only = std::move(*ids);
  }
  auto batch = calc::work_out(plan, work_options);
  append(said, batch.diagnostics());
  auto setup = commands::set_up_printing(print_order(plan, options), context.world);
  append(said, setup.diagnostics());
  if (batch) {
    append(said, commands::check_batch(plan, *batch));
  }
  if (!batch || !setup || has_errors(said)) {
    return;
  }
  const auto work = compare_with_ledger(*batch, plan, ledger, work_options.only.has_value());
  append(said, work.diagnostics());
  static const PrintAgain kNothing;
  auto files = Printer(plan, *batch, work ? work->again : kNothing, options, *setup,
                       commands::creation_date(
                           plan.date.given ? std::optional(plan.date.value) : std::nullopt, *setup),
                       folder)
                   .documents();
  append(said, files.diagnostics());
  if (!work || !files) {
    return;
  }
  append(said, write_out(*files, folder, options.overwrite, work->to_open, ledger, context));
  if (!has_errors(said)) {
    say(*files, *work, records, plan, *batch, options, said, context);
  }
}

/// The test page on the plan's labels, or, without a plan, on those that the options name.
void run_test_page(const PrintOptions& options, const commands::PlanInput* input, Diagnostics said,
                   Context& context) {
  TestPageOrder order{.setup = commands::order_of(options.paper, options.labels.stock, {}),
                      .folder = options.out.empty() ? "out" : options.out,
                      .date = std::nullopt,
                      .overwrite = options.overwrite,
                      .quiet = options.json};
  if (input != nullptr) {
    const plan::Plan& plan = input->plan;
    order.setup = print_order(plan, options);
    order.folder = options.out.empty() ? commands::beside(options.plan, "out") : options.out;
    order.date = plan.date.given ? std::optional(plan.date.value) : std::nullopt;
  }
  const auto page = print_test_page(order, context);
  append(said, page.diagnostics());
  if (input != nullptr) {
    commands::quote_lines(*input, said);
  }
  if (page && options.json) {
    json::Json out = json::Json::object();
    out.set("format", 1).set("files", json::Json::array().push(*page));
    context.out << out.set("diagnostics", json::to_json(said)).text();
  }
  context.exit_code = report_alone(context, said, options.json && !page);
}

void run_print(const PrintOptions& options, Context& context) {
  if (options.plan.empty() && options.test_page) {
    run_test_page(options, nullptr, {}, context);
    return;
  }
  if (options.plan.empty()) {
    context.exit_code = report_alone(
        context,
        {commands::usage_error("missing", "expected a plan", "loopledger print night.toml")},
        options.json);
    return;
  }
  auto input = commands::load_plan(options.plan, context.world);
  Diagnostics said = input.diagnostics();
  if (input && options.test_page) {
    run_test_page(options, &*input, std::move(said), context);
    return;
  }
  if (input) {
    print_plan(options, *input, said, context);
    commands::quote_lines(*input, said);
  }
  // What was printed is told by then, as JSON too.
  context.exit_code = report_alone(context, said, options.json && has_errors(said));
}

}  // namespace

void add_print(CommandLine& line, Context& context) {
  auto options = std::make_shared<PrintOptions>();
  Command command =
      line.add("print", "Print cut sheet, break-in sheet and labels; open a record for each motor");
  command.word("PLAN", options->plan, "The plan, or - for standard input")
      .option("--out", options->out,
              "Folder for the PDFs (default: out, commands::beside the plan)")
      .records(options->records)
      .list("--only", options->only, "Only these motors, such as TH-01,TH-02")
      .flag("--new", options->new_only, "Only motors without a record")
      .either_or("--new", "--only")
      .label_sheet(options->labels)
      .option("--paper", options->paper, "Paper of the sheets: a4, letter, or a .toml file")
      .flag("--test-page", options->test_page,
            "Print the labels' outlines and bars to measure the printer by, nothing else")
      .flag("--short", options->short_of_strip, "Print what can be cut when the pieces don't reach")
      .flag("--overwrite", options->overwrite, "Replace files that this program did not write")
      .units(options->units)
      .json(options->json, "What was written");
  for (const char* of_motors : {"--only", "--new", "--short", "--layout", "--start", "--copies"}) {
    command.either_or("--test-page", of_motors);
  }
  command.action([options, &context] {
    options->only = commands::parted_ids(options->only);
    run_print(*options, context);
  });
}

}  // namespace loopledger::terminal
