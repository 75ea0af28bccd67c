// SPDX-License-Identifier: MIT
//
// `mend FILE`: repairs a damaged record, or with --accept takes over what was changed by hand.
#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "base/text.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "json/json.h"
#include "posix/files.h"
#include "posix/posix_disk.h"
#include "records/ledger.h"
#include "tag/id.h"
#include "terminal/command.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {
namespace {

struct MendOptions {
  std::string file;
  std::string records;
  bool accept = false;
  bool json = false;
};

/// A path as given, or the record of an id. Errors: those of commands::find_record that speak of
/// the id; what else is wrong with its record is to be mended.
Result<std::string> path_of(const MendOptions& options, records::Disk& disk, Context& context) {
  if (options.file.find('/') != std::string::npos || options.file.ends_with(".toml")) {
    return options.file;
  }
  const auto id = tag::id_from(options.file);
  if (!id) {
    return id.diagnostics();
  }
  records::Ledger ledger(disk, commands::records_folder(options.records, {}, context.world));
  const auto found = commands::find_record(ledger, options.file);
  if (!found && found.diagnostics().front().code == "none-record") {
    return found.diagnostics();
  }
  return ledger.path_of(id->id);
}

void say_json(const std::string& path, const records::Mended& mended, Context& context) {
  json::Json done = json::Json::array();
  for (const std::string& sentence : mended.done) {
    done.push(sentence);
  }
  json::Json out = json::Json::object();
  out.set("format", 1).set("file", path).set("done", std::move(done));
  context.out << out.set("diagnostics", json::to_json(mended.left)).text();
}

void run_mend(const MendOptions& options, Context& context) {
  records::Disk& disk = context.world.disk;
  const auto named = path_of(options, disk, context);
  if (!named) {
    context.exit_code = report_alone(context, named.diagnostics(), options.json);
    return;
  }
  const std::string& path = *named;
  const auto mended = records::mend_file(disk, path, options.accept, context.world.now());
  if (!mended) {
    context.exit_code = report_alone(context, mended.diagnostics(), options.json);
    return;
  }
  if (options.json) {
    say_json(path, *mended, context);
  }
  for (const std::string& sentence : options.json ? std::vector<std::string>{} : mended->done) {
    context.out << fmt::format("{}: {}\n", printable(path), sentence);
  }
  if (!options.json && mended->done.empty() && mended->left.empty()) {
    context.out << fmt::format("{}: nothing to mend\n", printable(path));
  }
  context.exit_code = report(context, mended->left);
  if (context.exit_code == commands::kDone && !mended->left.empty()) {
    context.exit_code =
        commands::kInputErrors;  // something is left that only a person can put right
  }
}

}  // namespace

void add_mend(CommandLine& line, Context& context) {
  auto options = std::make_shared<MendOptions>();
  line.add("mend", "Repair or accept a damaged or edited record")
      .needed("FILE", options->file, "The record's file, or the motor's id")
      .flag("--accept", options->accept, "Accept lines and figures changed by hand")
      .records(options->records)
      .json(options->json, "What was done")
      .footer("What is taken out of a record is kept commands::beside it as FILE.damaged-TIME.")
      .action([options, &context] { run_mend(*options, context); });
}

}  // namespace loopledger::terminal
