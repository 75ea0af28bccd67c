// SPDX-License-Identifier: MIT
//
// `fit LOT` in words.
#include "commands/fit.h"

#include <memory>
#include <ostream>

#include "json/fit_json.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/fit_text.h"

namespace loopledger::terminal {
namespace {

struct FitOptions {
  commands::FitRequest request;
  bool json = false;
};

void run_fit(const FitOptions& options, Context& context) {
  const commands::FitAnswer answer = commands::fit(options.request, context.world);
  context.exit_code = report(context, answer.said);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (answer.lot) {
    context.out << fit_text(*answer.lot);
  }
}

}  // namespace

void add_fit(CommandLine& line, Context& context) {
  auto options = std::make_shared<FitOptions>();
  commands::FitRequest& request = options->request;
  line.add("fit", "Work out a lot's factors from the ledger, as lines for the shelf")
      .needed("LOT", request.lot, "The lot, as the shelf names it")
      .option("--plan", request.plan,
              "What this plan's strip of the lot says is taken as known before, not the defaults")
      .records(request.records)
      .json(options->json, "The fit")
      .action([options, &context] { run_fit(*options, context); });
}

}  // namespace loopledger::terminal
