// SPDX-License-Identifier: MIT
//
// `bench PLAN`: the dialogue at the scale. On a terminal it prompts; over a pipe it answers one
// line for each line.
#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <memory>
#include <ostream>

#include "base/text.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/outcome.h"
#include "commands/paths.h"
#include "commands/plan_input.h"
#include "commands/winder_today.h"
#include "posix/files.h"
#include "posix/interrupt.h"
#include "posix/posix_disk.h"
#include "posix/random_key.h"
#include "terminal/bench_dialogue.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"

namespace loopledger::terminal {
namespace {

struct BenchOptions {
  std::string plan;
  std::string winder_ratio;
  std::string records;
  std::optional<Units> units;
};

/// The plan's motors that have a record; what has none is told.
std::vector<MotorId> motors_of(const plan::Plan& plan, records::Ledger& ledger, Diagnostics& said) {
  std::vector<MotorId> ids;
  std::size_t missing = 0;
  const auto held = ledger.holding();
  append(said, held ? held->passed_over : held.diagnostics());
  for (const plan::MotorGroup& group : plan.motors) {
    for (int i = 0; held && i < group.count.value; ++i) {
      MotorId id{group.stem.value, group.first.value + i};
      if (std::ranges::binary_search(held->ids, id)) {
        ids.push_back(std::move(id));
      } else {
        ++missing;
      }
    }
  }
  if (ids.empty() && held) {
    said.push_back(error("none-record", "no motor of this plan has a record yet",
                         "`loopledger print` opens them"));
  } else if (missing > 0) {
    said.push_back(warning("bench-missing",
                           fmt::format("{} of the plan's motors have no record yet", missing),
                           "`loopledger print` opens them"));
  }
  return ids;
}

/// What is said when a signal ends the bench.
std::string farewell(std::size_t stored, const std::string& plan) {
  return fmt::format("\n{}; `loopledger bench {}` goes on here\n",
                     stored == 0   ? "nothing was stored"
                     : stored == 1 ? "1 entry is stored and on disk"
                                   : fmt::format("{} entries are stored and on disk", stored),
                     shortened(plan, 200));
}

/// What ended the dialogue before its end: an answer that nobody could read, a line lost.
Diagnostics broken_off(const Context& context) {
  constexpr const char* kHint = "what was answered is stored; begin again and go on where it is";
  if (context.in.bad()) {
    return {error("disk-read", "standard input can't be read", kHint,
                  {commands::kStandardInput, 0, 0})};
  }
  if (!context.out) {
    return {
        error("disk-output", "the answers can't be written any more", kHint, {"loopledger", 0, 0})};
  }
  return {};
}

int talk(BenchDialogue& dialogue, const std::string& plan, Context& context) {
  int code = commands::kDone;
  posix::Interrupt interrupt;
  for (std::string line; context.out;) {
    if (context.terminal) {
      context.out << dialogue.prompt() << std::flush;
    }
    interrupt.idle(farewell(dialogue.stored(), plan));
    if (!std::getline(context.in, line)) {
      break;
    }
    interrupt.busy();
    const BenchDialogue::Answer answer = dialogue.take(line);
    if (const int reported = report(context, answer.said); reported != commands::kDone) {
      code = reported;
    }
    if (!answer.text.empty()) {
      context.out << answer.text << std::endl;
    }
    if (answer.stop) {
      break;
    }
  }
  const int broken = report(context, broken_off(context));
  return broken == commands::kDone ? code : broken;
}

void run_bench(const BenchOptions& options, Context& context) {
  if (options.plan == "-") {
    context.exit_code =
        report(context, {commands::usage_error(
                            "value", "expected a plan's file: standard input brings the readings",
                            "loopledger bench night.toml")});
    return;
  }
  auto input = commands::load_plan(options.plan, context.world);
  Diagnostics said = input.diagnostics();
  if (!input) {
    context.exit_code = report(context, said);
    return;
  }
  const plan::Plan& plan = input->plan;
  records::Disk& disk = context.world.disk;
  records::Ledger ledger(
      disk,
      commands::records_folder(options.records, commands::beside(options.plan, plan.records.value),
                               context.world));
  BenchSetup setup;
  setup.motors = motors_of(plan, ledger, said);
  setup.units = options.units.value_or(plan.units);
  const auto ratio = commands::todays_winder_ratio(options.winder_ratio, &plan, context.world);
  append(said, ratio.diagnostics());
  setup.winder_ratio = ratio ? *ratio : std::nullopt;
  setup.terminal = context.terminal;
  setup.scale_error = plan.bench.scale_error.value;
  setup.scale_step = plan.bench.scale_step.value;
  setup.now = context.world.now;
  setup.random_four = context.world.random_four;
  context.exit_code = report(context, said);
  if (context.exit_code == commands::kDone) {
    BenchDialogue dialogue(ledger, std::move(setup));
    context.exit_code = talk(dialogue, options.plan, context);
  }
}

}  // namespace

void add_bench(CommandLine& line, Context& context) {
  auto options = std::make_shared<BenchOptions>();
  Command command = line.add("bench", "At the scale: type motor and reading, read what to do");
  command.needed("PLAN", options->plan, "The plan whose motors are on the bench");
  add_winder_ratio(command, options->winder_ratio)
      .records(options->records)
      .units(options->units)
      .footer(
          "Lines: `th3 1.776`, `th3 loop 302`, `th3 1180 41 gf.cm`; Enter alone goes on to the "
          "next\n"
          "motor; `undo`, `skip`, `stop`, `show th3`, `list`, an owner's name, `check 1.001` for a "
          "check weight of 1 g; `?` shows all.")
      .action([options, &context] { run_bench(*options, context); });
}

}  // namespace loopledger::terminal
