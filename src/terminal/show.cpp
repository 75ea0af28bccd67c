// SPDX-License-Identifier: MIT
//
// `show ID` in words.
#include "commands/show.h"

#include <memory>
#include <ostream>

#include "json/show_json.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"
#include "terminal/record_view.h"

namespace loopledger::terminal {
namespace {

struct ShowOptions {
  commands::ShowRequest request;
  std::optional<Units> units;
  bool all = false;
  bool json = false;
};

void run_show(const ShowOptions& options, Context& context) {
  const commands::ShowAnswer answer = commands::show(options.request, context.world);
  context.exit_code = report(context, answer.said);
  if (options.json) {
    context.out << json::to_json(answer).text();
    return;
  }
  const Units units = options.units.value_or(Units::metric);
  if (answer.record) {
    context.out << record_text(*answer.record, {units, answer.today, options.all});
  } else if (!answer.entries_only.empty()) {
    context.out << "The figures as planned can't be read. Entries that can (UTC)\n"
                << entries_text(answer.entries_only, units, answer.entries_only.size());
  }
}

}  // namespace

void add_show(CommandLine& line, Context& context) {
  auto options = std::make_shared<ShowOptions>();
  Command command = line.add("show", "Show one motor's record and what to do next");
  command.needed("ID", options->request.id, "The motor, such as th1 or TH-01-J");
  add_today(command, options->request.today)
      .flag("--all", options->all, "All entries, not only the newest")
      .records(options->request.records)
      .units(options->units)
      .json(options->json, "The record")
      .action([options, &context] { run_show(*options, context); });
}

}  // namespace loopledger::terminal
