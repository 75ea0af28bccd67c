// SPDX-License-Identifier: MIT
#include <exception>
#include <ostream>

#include "cli/command.h"
#include "cli/command_line.h"
#include "cli/exit_code.h"

namespace loopledger::cli {
namespace {

constexpr const char* kAbout =
    "Shop sheets, bag labels and records for rubber motors of free-flight models.\n"
    "A TOML batch plan goes in; figures, cut sheets, labels and one record per motor come out.";
constexpr const char* kExitCodes =
    "Exit codes: 0 done; 1 the input has errors; 2 usage; 3 disk or environment; 4 nothing found;\n"
    "70 a fault of ours.";

int parse_and_run(int argc, const char* const* argv, Context& context) {
  CommandLine line(kAbout, "loopledger " LOOPLEDGER_VERSION, kExitCodes);
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
  return line.run(argc, argv, context.out, context.err) ? context.exit_code : kUsage;
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
