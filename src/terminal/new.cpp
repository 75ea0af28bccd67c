// SPDX-License-Identifier: MIT
//
// `new PLAN` in words.
#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "commands/new_plan.h"
#include "commands/outcome.h"
#include "json/new_json.h"
#include "terminal/command.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {
namespace {

struct NewOptions {
  commands::NewPlanRequest request;
  bool json = false;
};

void run_new(const NewOptions& options, Context& context) {
  const bool to_output = options.request.path == "-";
  if (to_output && options.json) {
    const auto both = commands::usage_error("both", "expected - or --json, found both",
                                            "name a file, such as night.toml; or leave --json out");
    context.exit_code = report_alone(context, {both}, true);
    return;
  }
  const commands::NewPlanAnswer answer = commands::new_plan(options.request, context.world);
  context.exit_code = report(context, answer.said);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (to_output) {
    context.out << answer.text;
  } else if (!answer.file.empty()) {
    context.out << fmt::format("Wrote {0}. Put your figures in, then: loopledger check {0}\n",
                               answer.file);
  }
}

}  // namespace

void add_new(CommandLine& line, Context& context) {
  auto options = std::make_shared<NewOptions>();
  line.add("new", "Write a short commented plan to start from")
      .needed("PLAN", options->request.path, "File to write, such as night.toml")
      .json(options->json, "What was written")
      .action([options, &context] { run_new(*options, context); });
}

}  // namespace loopledger::terminal
