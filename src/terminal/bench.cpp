// SPDX-License-Identifier: MIT
//
// `bench PLAN`: the dialogue at the scale. On a terminal it prompts; over a pipe it answers one
// line for each line.
#include "commands/bench.h"

#include <fmt/format.h>

#include <istream>
#include <memory>
#include <ostream>

#include "base/text.h"
#include "commands/exit_code.h"
#include "posix/interrupt.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

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

int talk(commands::BenchDialogue& dialogue, const std::string& plan, Context& context) {
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
    const commands::BenchDialogue::Answer answer = dialogue.take(line);
    if (const int reported = report(context, answer.said); reported != commands::kDone) {
      code = reported;
    }
    if (!answer.text.empty()) {
      context.out << answer.text << std::endl;
    }
    for (const std::string& shown : answer.summary) {
      context.out << wrapped(shown) << std::flush;
    }
    if (answer.stop) {
      break;
    }
  }
  const int broken = report(context, broken_off(context));
  return broken == commands::kDone ? code : broken;
}

void run_bench(commands::BenchRequest& request, Context& context) {
  request.long_help = context.terminal;
  commands::BenchAnswer answer = commands::bench(request, context.world);
  context.exit_code = report(context, answer.said);
  if (answer.dialogue) {
    context.exit_code = talk(*answer.dialogue, request.plan, context);
  }
}

}  // namespace

void add_bench(CommandLine& line, Context& context) {
  auto request = std::make_shared<commands::BenchRequest>();
  Command command = line.add("bench", "At the scale: type motor and reading, read what to do");
  command.needed("PLAN", request->plan, "The plan whose motors are on the bench");
  add_winder_ratio(command, request->winder_ratio)
      .records(request->records)
      .units(request->units)
      .footer(
          "Lines: `th3 1.776`, `th3 loop 302`, `th3 1180 41 gf.cm`; Enter alone goes on to the "
          "next\n"
          "motor; `undo`, `skip`, `stop`, `show th3`, `list`, an owner's name, `check 1.001` for a "
          "check weight of 1 g; `?` shows all.")
      .action([request, &context] { run_bench(*request, context); });
}

}  // namespace loopledger::terminal
