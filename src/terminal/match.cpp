// SPDX-License-Identifier: MIT
//
// `match N`: the N motors of the ledger that are most alike, for a set that flies the same.
#include "calc/match.h"

#include <fmt/format.h>

#include <memory>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "base/text.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/motor_rows.h"
#include "commands/row_filter.h"
#include "posix/files.h"
#include "posix/posix_disk.h"
#include "records/ledger.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"
#include "terminal/match_choice.h"
#include "terminal/match_text.h"

namespace loopledger::terminal {
namespace {

constexpr int kMostMatched = 100;

struct MatchOptions {
  int wanted = 2;
  commands::RowFilter only;
  std::vector<std::string> by = figure_words();
  std::string records;
  std::optional<Units> units;
  bool json = false;
};

std::optional<calc::Match> matched(const MatchChoice& choice, calc::MatchBy by, int wanted) {
  std::vector<calc::MatchFigures> motors;
  for (const commands::ListRow& row : choice.rows) {
    motors.push_back({row.washed.value_or(Mass{}),
                      row.loop_is == LoopIs::planned ? Length{} : row.loop,
                      row.best ? row.best->torque.value_or(Torque{}) : Torque{}});
  }
  return calc::most_alike(motors, by, static_cast<std::size_t>(wanted));
}

void run_match(const MatchOptions& options, Context& context) {
  records::Disk& disk = context.world.disk;
  const std::string folder = commands::records_folder(options.records, {}, context.world);
  records::Ledger ledger(disk, folder);
  const auto held = ledger.holding();
  if (!held) {
    context.exit_code = report_alone(context, held.diagnostics(), options.json);
    return;
  }
  const commands::ListReading reading = commands::read_list(
      context.world, folder, held->ids, [](const commands::ListRow&) { return true; });
  const calc::MatchBy by = match_by(options.by);
  const MatchChoice choice = match_choice(reading.rows, options.only, by,
                                          static_cast<int>(held->ids.size() - reading.rows.size()));
  Diagnostics problems = held->passed_over;
  append(problems, reading.problems);
  const auto match = matched(choice, by, options.wanted);
  if (!match) {
    problems.push_back(too_few(choice, options.wanted, options.only, by, printable(folder)));
  }
  context.exit_code = report(context, problems);
  if (options.json) {
    context.out << match_json(match, choice, by, options.wanted, problems).text();
  } else if (match) {
    context.out << match_text(*match, choice, by, options.units.value_or(Units::metric));
  }
}

}  // namespace

void add_match(CommandLine& line, Context& context) {
  auto options = std::make_shared<MatchOptions>();
  Command command = line.add("match", "Find the motors that are most alike");
  command.needed("N", options->wanted, 2, kMostMatched, "How many");
  add_filter(command, options->only)
      .choices("--by", options->by, figure_words(),
               "What makes them alike: washed mass, loop, torque at the most turns; all three")
      .records(options->records)
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
