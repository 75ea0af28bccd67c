// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <exception>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "base/text.h"
#include "cli/command.h"
#include "cli/exit_code.h"

namespace loopledger::cli {
namespace {

constexpr const char* kAbout =
    "Shop sheets, bag labels and records for rubber motors of free-flight models.\n"
    "A TOML batch plan goes in; figures, cut sheets, labels and one record per motor come out.";
constexpr const char* kExitCodes =
    "Exit codes: 0 done; 1 the input has errors; 2 usage; 3 disk or environment; 4 nothing found;\n"
    "70 a fault of ours.";

void add_commands(CLI::App& app, Context& context) {
  add_new(app, context);
  add_check(app, context);
  add_print(app, context);
  add_log(app, context);
  add_show(app, context);
  add_scan(app, context);
  add_list(app, context);
  add_mend(app, context);
}

/// A word that is no command gets the nearest one; empty when the first word is one.
std::string unknown_command(const CLI::App& app, int argc, const char* const* argv) {
  const std::string_view word = argc > 1 ? argv[1] : "";
  if (word.empty() || word.front() == '-') {
    return {};
  }
  std::vector<std::string> names;
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    if (command->get_name() == word) {
      return {};
    }
    names.push_back(command->get_name());
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  const std::string_view near = nearest(word, views);
  return fmt::format("loopledger: unknown command \"{}\"\n  hint: {}\n", printable(word),
                     near.empty() ? fmt::format("commands are {}", either(views))
                                  : fmt::format("did you mean `loopledger {}`?", near));
}

int parse_and_run(int argc, const char* const* argv, Context& context) {
  CLI::App app(kAbout, "loopledger");
  app.footer(kExitCodes);
  app.require_subcommand(1);
  app.set_version_flag("--version", "loopledger " LOOPLEDGER_VERSION);
  app.set_help_all_flag("--help-all", "Help of all commands");
  add_commands(app, context);
  if (const std::string unknown = unknown_command(app, argc, argv); !unknown.empty()) {
    context.err << unknown;
    return kUsage;
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    const int code = app.exit(e, context.out, context.err);
    return code == 0 ? kDone : kUsage;
  }
  return context.exit_code;
}

}  // namespace

int run(int argc, const char* const* argv, Context& context) {
  try {
    return parse_and_run(argc, argv, context);
  } catch (const std::exception& e) {
    context.err << "loopledger: internal error: " << e.what()
                << "\n  hint: this is a fault of the program, not of your plan; please report it\n";
  } catch (...) {
    context.err << "loopledger: internal error\n";
  }
  return kInternal;
}

}  // namespace loopledger::cli
