// SPDX-License-Identifier: MIT
//
// What every command is given, and how a command joins the program. One file per command: it adds
// itself with its options to the command line, and when it is the one chosen it runs and leaves its
// exit code in the context. Results go to `out`, diagnostics to `err`.
#pragma once

#include <iosfwd>

#include "base/paint.h"
#include "base/result.h"
#include "commands/world.h"

namespace loopledger::terminal {

class CommandLine;

/// The terminal, and the world that commands are given; tests stand in for both.
struct Context {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  commands::World& world;
  bool terminal = false;       ///< a person sits at it: prompts are of use
  Paint paint = Paint::plain;  ///< of diagnostics
  int exit_code = 0;
};

/// Prints the diagnostics to `err` and returns commands::kInputErrors, commands::kUsage (codes that
/// begin with "usage-"), commands::kEnvironment ("disk-") or commands::kNothingFound ("none-") by
/// the first error among them; commands::kDone when there is no error.
int report(Context& context, const Diagnostics& diagnostics);

/// The same for a command that ends here. With `json` it also prints to `out` what --json says when
/// there is nothing else to say: an object of `format` and `diagnostics`.
int report_alone(Context& context, const Diagnostics& diagnostics, bool json);

void add_new(CommandLine& line, Context& context);
void add_check(CommandLine& line, Context& context);
void add_print(CommandLine& line, Context& context);
void add_bench(CommandLine& line, Context& context);
void add_label(CommandLine& line, Context& context);
void add_card(CommandLine& line, Context& context);
void add_log(CommandLine& line, Context& context);
void add_show(CommandLine& line, Context& context);
void add_scan(CommandLine& line, Context& context);
void add_list(CommandLine& line, Context& context);
void add_match(CommandLine& line, Context& context);
void add_fit(CommandLine& line, Context& context);
void add_mend(CommandLine& line, Context& context);
void add_sources(CommandLine& line, Context& context);
void add_schema(CommandLine& line, Context& context);

/// The command line with all of these, in the order in which a night needs them.
[[nodiscard]] CommandLine command_line(Context& context);

/// The whole program: parses the arguments, runs the command, returns the exit code. No exception
/// leaves it.
int run(int argc, const char* const* argv, Context& context);

}  // namespace loopledger::terminal
