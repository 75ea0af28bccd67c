// SPDX-License-Identifier: MIT
//
// `check PLAN`: the figures in the terminal; writes nothing.
#include <memory>
#include <ostream>

#include "calc/work_out.h"
#include "commands/exit_code.h"
#include "commands/plan_checks.h"
#include "commands/plan_input.h"
#include "terminal/check_view.h"
#include "terminal/command.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {
namespace {

struct CheckOptions {
  std::string plan;
  bool json = false;
  bool short_of_strip = false;
  std::optional<Units> units;
};

void run_check(const CheckOptions& options, Context& context) {
  auto input = commands::load_plan(options.plan, context.world);
  Diagnostics said = input.diagnostics();
  calc::Batch batch;
  if (input) {
    auto worked =
        calc::work_out(input->plan, {.short_of_strip = options.short_of_strip, .choices = true});
    append(said, worked.diagnostics());
    append(said, commands::check_names(input->plan, context.world));
    if (worked) {
      append(said, commands::check_batch(input->plan, *worked));
    }
    commands::quote_lines(*input, said);
    if (worked) {
      batch = std::move(*worked);
    }
  }
  if (options.json) {
    context.out << check_json(input ? input->plan : plan::Plan{}, batch, said).text();
  }
  context.exit_code = report(context, said);
  if (context.exit_code == commands::kDone && !options.json) {
    const Units units = options.units.value_or(input->plan.units);
    context.out << check_text(input->plan, batch, units);
  }
}

}  // namespace

void add_check(CommandLine& line, Context& context) {
  auto options = std::make_shared<CheckOptions>();
  line.add("check", "Show the figures of a plan in the terminal; writes nothing")
      .needed("PLAN", options->plan, "The plan, or - for standard input")
      .flag("--short", options->short_of_strip,
            "Go on with what can be cut when the pieces don't reach")
      .units(options->units)
      .json(options->json, "Figures")
      .action([options, &context] { run_check(*options, context); });
}

}  // namespace loopledger::terminal
