// SPDX-License-Identifier: MIT
//
// `log ID KIND …`: adds one entry to a motor's record, says what it understood, and what follows
// from it.
#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "base/text.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/outcome.h"
#include "commands/winder_today.h"
#include "json/json.h"
#include "motor/consequences.h"
#include "motor/entry_checks.h"
#include "motor/typed_entry.h"
#include "motor/words.h"
#include "posix/files.h"
#include "posix/posix_disk.h"
#include "posix/random_key.h"
#include "records/fields.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"
#include "terminal/log_many.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using records::Entry;
using records::Kind;
using records::Record;

Result<Moment> moment_of(const LogOptions& options, const Context& context) {
  if (options.at.empty()) {
    return context.world.now();
  }
  const auto at = moment_from_text(options.at);
  if (!at) {
    return motor::bad_time(options.at);
  }
  return *at;
}

void tell_one(const LogOptions& options, const commands::FoundRecord& found, const Entry& entry,
              Context& context) {
  if (options.json) {
    json::Json out = json::Json::object();
    out.set("format", 1).set("id", printed(found.id)).set("key", entry.key);
    context.out << out.text();
    return;
  }
  const Units units = options.units.value_or(Units::metric);
  Record after = found.record;
  after.entries.push_back(entry);
  context.out << wrapped(motor::whose(found.record))
              << wrapped(fmt::format("  {}  {}", entry.key, motor::in_words(entry, units)));
  for (const std::string& line : motor::consequences(found.record, after, entry, units)) {
    context.out << wrapped("  " + printable(line));
  }
}

/// The ledger's answer to one entry; what speaks against it goes to `problems`.
void check_entry(const LogOptions& options, const Record& record, const motor::TypedEntry& typed,
                 const Entry& entry, const std::optional<double>& ratio, const Context& context,
                 Diagnostics& problems) {
  motor::DoubtContext doubt;
  doubt.now = context.world.now();
  doubt.winder_ratio = ratio;
  doubt.units = options.units.value_or(Units::metric);
  doubt.in_cranks = typed.in_cranks;
  append(problems, options.sure ? Diagnostics{} : motor::doubt_refusal(record, entry, doubt));
}

void run_log_one(const LogOptions& options, Context& context) {
  records::Disk& disk = context.world.disk;
  records::Ledger ledger(disk, commands::records_folder(options.records, {}, context.world));
  const auto at = moment_of(options, context);
  auto found = commands::find_record(ledger, options.id);
  const auto ratio = commands::todays_winder_ratio(options.winder_ratio, nullptr, context.world);
  const auto typed = motor::entry_from_typed(options.kind, options.words,
                                             ratio ? *ratio : std::optional<double>());
  Diagnostics problems = found.diagnostics();
  append(problems, typed.diagnostics());
  append(problems, ratio.diagnostics());
  append(problems, at.diagnostics());
  Entry entry = typed ? typed->entry : Entry{};
  if (found && typed && at && ratio) {
    append(problems, motor::resolve_correction(entry, found->record, !options.at.empty()));
    entry.key =
        motor::new_key(*at, !options.at.empty(), entry, found->record, context.world.random_four);
    if (!has_errors(problems)) {
      check_entry(options, found->record, *typed, entry, *ratio, context, problems);
    }
  }
  if (has_errors(problems)) {
    context.exit_code = report_alone(context, problems, options.json);
    return;
  }
  (void)report(context, problems);
  if (!found->checked) {
    context.err << wrapped("no check character typed: taken for " + motor::whose(found->record));
  }
  (void)report(context, motor::again_warning(found->record, entry, *at));
  const Diagnostics stored = ledger.add(found->id, entry);
  context.exit_code = report_alone(context, stored, options.json && has_errors(stored));
  if (context.exit_code == commands::kDone) {
    tell_one(options, *found, entry, context);
  }
}

void run_log(const LogOptions& options, Context& context) {
  const bool from_file = !options.from.empty();
  if (from_file ? !options.id.empty() : options.kind.empty()) {
    const std::string found = from_file ? ", found both" : "";
    context.exit_code =
        report_alone(context,
                     {commands::usage_error(from_file ? "both" : "missing",
                                            "expected ID and KIND, or --from FILE" + found,
                                            from_file ? "each entry of the file names its motor"
                                                      : "loopledger log th1 weighed washed 1.774")},
                     options.json);
    return;
  }
  if (from_file) {
    run_log_many(options, context);
  } else {
    run_log_one(options, context);
  }
}

std::string kinds_help() {
  std::string out = "Kinds and their fields:\n";
  for (const std::string_view name : records::kind_words()) {
    std::vector<std::string_view> fields;
    const Kind kind = *records::kind_from(name);
    for (const records::Field& field : records::fields_of(kind)) {
      if (field.name != "note" && field.name != "corrects") {
        fields.push_back(field.name);
      }
    }
    out += fmt::format("  {:9} {}\n", name, fmt::join(fields, ", "));
  }
  return out +
         "All kinds take note=TEXT and corrects=KEY (the last four characters of the key will "
         "do).\n"
         "Examples:\n"
         "  loopledger log th1 weighed washed 1.774\n"
         "  loopledger log TH-01-T wound turns=1200 torque=\"41 gf.cm\" end=stopped\n"
         "  loopledger log th1 wound cranks=120 --winder-ratio 10\n"
         "  loopledger log th1 flown 7:31 turns_left=210\n"
         "  loopledger log --from evening.csv     (columns id, kind, at and the fields)\n";
}

}  // namespace

void add_log(CommandLine& line, Context& context) {
  auto options = std::make_shared<LogOptions>();
  Command command = line.add("log", "Add an entry to a motor's record");
  command.option("ID", options->id, "The motor, such as th1 or TH-01-J")
      .option("KIND", options->kind, "What happened, such as weighed or wound")
      .words("FIELDS", options->words, "field=value, or values alone with their units")
      .option("--from", options->from, "Many entries from a TOML or CSV file, all or none")
      .option("--at", options->at, "When it happened, UTC: \"2026-05-01 10:00\"")
      .flag("--sure", options->sure, "Take values that look like a slip");
  add_winder_ratio(command, options->winder_ratio)
      .records(options->records)
      .units(options->units)
      .json(options->json, "The new entry's key")
      .footer(kinds_help())
      .action([options, &context] { run_log(*options, context); });
}

}  // namespace loopledger::terminal
