// SPDX-License-Identifier: MIT
//
// `mend FILE` in words.
#include "commands/mend.h"

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "base/text.h"
#include "json/mend_json.h"
#include "terminal/command.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {
namespace {

struct MendOptions {
  commands::MendRequest request;
  bool json = false;
};

void run_mend(const MendOptions& options, Context& context) {
  const commands::MendAnswer answer = commands::mend(options.request, context.world);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (answer.done) {
    for (const std::string& sentence : *answer.done) {
      context.out << fmt::format("{}: {}\n", printable(answer.path), sentence);
    }
    if (answer.done->empty() && answer.said.empty()) {
      context.out << fmt::format("{}: nothing to mend\n", printable(answer.path));
    }
  }
  report(context, answer.said);
  context.exit_code = answer.exit_code;
}

}  // namespace

void add_mend(CommandLine& line, Context& context) {
  auto options = std::make_shared<MendOptions>();
  commands::MendRequest& request = options->request;
  line.add("mend", "Repair or accept a damaged or edited record")
      .needed("FILE", request.file, "The record's file, or the motor's id")
      .flag("--accept", request.accept, "Accept lines and figures changed by hand")
      .records(request.records)
      .json(options->json, "What was done")
      .footer("What is taken out of a record is kept beside it as FILE.damaged-TIME.")
      .action([options, &context] { run_mend(*options, context); });
}

}  // namespace loopledger::terminal
