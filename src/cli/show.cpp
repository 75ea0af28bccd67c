// SPDX-License-Identifier: MIT
//
// `show ID`: one motor's record and what to do next.
#include <memory>
#include <ostream>

#include "cli/command.h"
#include "cli/command_line.h"
#include "cli/exit_code.h"
#include "cli/files.h"
#include "cli/json.h"
#include "cli/ledger_words.h"
#include "cli/posix_disk.h"
#include "cli/record_view.h"
#include "cli/today_options.h"
#include "records/format.h"
#include "records/read.h"
#include "tag/id.h"

namespace loopledger::cli {
namespace {

struct ShowOptions {
  std::string id;
  std::string records;
  std::optional<Units> units;
  TodayOptions today;
  bool all = false;
  bool json = false;
};

/// What still reads of a record whose head does not.
void show_entries_only(const ShowOptions& options, PosixDisk& disk, const records::Ledger& ledger,
                       Units units, Context& context) {
  const auto id = tag::id_from(options.id);
  const std::string path = id ? ledger.path_of(id->id) : std::string();
  const auto text =
      path.empty() ? Result<std::string>(Diagnostics{}) : disk.read(path, records::kMaxRecordBytes);
  const auto entries = text ? records::read_entries_only(*text, path) : Diagnostics{};
  if (entries && !entries->entries.empty()) {
    context.out << "The figures as planned can't be read. Entries that can (UTC)\n"
                << entries_text(entries->entries, units, entries->entries.size());
  }
}

void run_show(const ShowOptions& options, Context& context) {
  PosixDisk disk;
  records::Ledger ledger(disk, records_folder(options.records, {}, context));
  const Units units = options.units.value_or(Units::metric);
  const auto today = today_from(options.today, context);
  if (!today) {
    context.exit_code = report_alone(context, today.diagnostics(), options.json);
    return;
  }
  const auto found = find_record(ledger, options.id);
  context.exit_code = report_alone(context, found.diagnostics(), options.json && !found);
  if (!found && !options.json) {
    show_entries_only(options, disk, ledger, units, context);
  }
  if (found) {
    context.out << (options.json ? record_json(found->record, *today, found.diagnostics()).text()
                                 : record_text(found->record, {units, *today, options.all}));
  }
}

}  // namespace

void add_show(CommandLine& line, Context& context) {
  auto options = std::make_shared<ShowOptions>();
  Command command = line.add("show", "Show one motor's record and what to do next");
  command.needed("ID", options->id, "The motor, such as th1 or TH-01-J");
  add_today(command, options->today)
      .flag("--all", options->all, "All entries, not only the newest")
      .records(options->records)
      .units(options->units)
      .json(options->json, "The record")
      .action([options, &context] { run_show(*options, context); });
}

}  // namespace loopledger::cli
