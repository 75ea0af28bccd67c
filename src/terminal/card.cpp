// SPDX-License-Identifier: MIT
//
// `card ID...` in words.
#include "commands/card.h"

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "json/card_json.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"

namespace loopledger::terminal {
namespace {

struct CardOptions {
  commands::CardRequest request;
  bool json = false;
};

void run_card(const CardOptions& options, Context& context) {
  const commands::CardAnswer answer = commands::card(options.request, context.world);
  context.exit_code = report(context, answer.said);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (!answer.file.empty()) {
    const std::size_t all = answer.motors.size();
    context.out << fmt::format("Wrote {} ({} card{}{})\n", answer.file, answer.cards,
                               answer.cards == 1 ? "" : "s",
                               all > 1 ? fmt::format(", list of {} motors", all) : "");
  }
}

}  // namespace

void add_card(CommandLine& line, Context& context) {
  auto options = std::make_shared<CardOptions>();
  commands::CardRequest& request = options->request;
  Command command = line.add("card", "Print field cards: how to wind, with the torque curve");
  command.words("ID", request.ids, "The motors, such as th1 th2");
  add_winder_ratio(add_filter(command, request.only), request.today.winder_ratio)
      .option("--paper", request.paper, "Paper: a4 (default), letter, or a .toml file")
      .option("--out", request.out, "Folder for card.pdf (default: out)")
      .records(request.records)
      .units(request.units)
      .flag("--overwrite", request.overwrite, "Replace a file that this program did not write")
      .json(options->json, "What was written")
      .footer(
          "With several motors a list of the box comes first. Figures marked as estimates have\n"
          "their 95 % interval beside them.")
      .action([options, &context] { run_card(*options, context); });
}

}  // namespace loopledger::terminal
