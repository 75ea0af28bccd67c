// SPDX-License-Identifier: MIT
//
// `check PLAN`: the figures in the terminal; writes nothing.
#include "commands/check.h"

#include <memory>
#include <ostream>

#include "commands/exit_code.h"
#include "json/check_json.h"
#include "terminal/check_view.h"
#include "terminal/command.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {
namespace {

struct CheckOptions {
  commands::CheckRequest request;
  bool json = false;
  std::optional<Units> units;
};

void run_check(const CheckOptions& options, Context& context) {
  const commands::CheckAnswer answer = commands::check(options.request, context.world);
  if (options.json) {
    context.out << json::to_json(answer).text();
  }
  context.exit_code = report(context, answer.said);
  if (context.exit_code == commands::kDone && !options.json) {
    context.out << check_text(answer.plan, answer.batch, options.units.value_or(answer.plan.units));
  }
}

}  // namespace

void add_check(CommandLine& line, Context& context) {
  auto options = std::make_shared<CheckOptions>();
  line.add("check", "Show the figures of a plan in the terminal; writes nothing")
      .needed("PLAN", options->request.plan, "The plan, or - for standard input")
      .flag("--short", options->request.short_of_strip,
            "Go on with what can be cut when the pieces don't reach")
      .units(options->units)
      .json(options->json, "Figures")
      .action([options, &context] { run_check(*options, context); });
}

}  // namespace loopledger::terminal
