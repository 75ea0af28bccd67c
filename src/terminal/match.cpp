// SPDX-License-Identifier: MIT
//
// `match N` in words.
#include "commands/match.h"

#include <memory>
#include <optional>
#include <ostream>

#include "json/match_json.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"
#include "terminal/match_text.h"

namespace loopledger::terminal {
namespace {

struct MatchOptions {
  commands::MatchRequest request;
  std::optional<Units> units;
  bool json = false;
};

void run_match(const MatchOptions& options, Context& context) {
  const commands::MatchAnswer answer = commands::match(options.request, context.world);
  context.exit_code = report(context, answer.said);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (answer.match) {
    context.out << match_text(answer, options.units.value_or(Units::metric));
  }
}

}  // namespace

void add_match(CommandLine& line, Context& context) {
  auto options = std::make_shared<MatchOptions>();
  commands::MatchRequest& request = options->request;
  Command command = line.add("match", "Find the motors that are most alike");
  command.needed("N", request.wanted, commands::kLeastMatched, commands::kMostMatched, "How many");
  add_filter(command, request.only)
      .choices("--by", request.by, commands::figure_words(),
               "What makes them alike: washed mass, loop, torque at the most turns; all three")
      .records(request.records)
      .units(options->units)
      .json(options->json, "The set")
      .footer(
          "Each figure's difference is taken in units of its spread (standard deviation) over all\n"
          "motors to choose from; the set with the least sum is the one. Retired motors, those "
          "not\n"
          "tied yet and those without one of the figures are left out.")
      .action([options, &context] { run_match(*options, context); });
}

}  // namespace loopledger::terminal
