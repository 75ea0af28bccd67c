// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <string_view>

#include "commands/exit_code.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/libraries.h"

namespace loopledger::terminal {
namespace {

constexpr const char* kAbout =
    "Shop sheets, bag labels and records for rubber motors of free-flight models.\n"
    "A TOML batch plan goes in; figures, cut sheets, labels and one record per motor come out.";
constexpr const char* kExitCodes =
    "Exit codes: 0 done; 1 the input has errors; 2 usage; 3 disk or environment; 4 nothing found;\n"
    "70 a fault of ours.";

int internal(const char* what, Context& context) {
  (void)report(context, {error("internal", fmt::format("internal error: {}", what),
                               "this is a fault of the program, not of your plan; please report it",
                               {"loopledger", 0, 0})});
  return commands::kInternal;
}

}  // namespace

CommandLine command_line(Context& context) {
  CommandLine line(
      kAbout, [&context] { return version_text(context); }, kExitCodes);
  add_new(line, context);
  add_check(line, context);
  add_print(line, context);
  add_bench(line, context);
  add_label(line, context);
  add_card(line, context);
  add_log(line, context);
  add_show(line, context);
  add_scan(line, context);
  add_list(line, context);
  add_match(line, context);
  add_fit(line, context);
  add_mend(line, context);
  add_sources(line, context);
  add_schema(line, context);
  return line;
}

int run(int argc, const char* const* argv, Context& context) {
  try {
    const Diagnostics not_understood = command_line(context).run(argc, argv, context.out);
    const bool json = std::any_of(
        argv, argv + argc, [](const char* word) { return std::string_view(word) == "--json"; });
    return not_understood.empty() ? context.exit_code : report_alone(context, not_understood, json);
  } catch (const std::exception& e) {
    return internal(e.what(), context);
  } catch (...) {
    return internal("an exception of an unknown kind", context);
  }
}

}  // namespace loopledger::terminal
