// SPDX-License-Identifier: MIT
//
// `label ID...` in words.
#include "commands/label.h"

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "json/label_json.h"
#include "terminal/command.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {
namespace {

struct LabelOptions {
  commands::LabelRequest request;
  bool json = false;
};

void run_label(const LabelOptions& options, Context& context) {
  const commands::LabelAnswer answer = commands::label(options.request, context.world);
  context.exit_code = report(context, answer.said);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (!answer.file.empty()) {
    context.out << fmt::format("Wrote {} ({} label{}){}\n", answer.file, answer.labels,
                               answer.labels == 1 ? "" : "s",
                               answer.replaced ? ", in place of the file that was there" : "");
  } else if (!has_errors(answer.said)) {
    context.out << "No label is out of date.\n";
  }
}

}  // namespace

void add_label(CommandLine& line, Context& context) {
  auto options = std::make_shared<LabelOptions>();
  commands::LabelRequest& request = options->request;
  line.add("label", "Print labels with the figures as they now stand")
      .words("ID", request.ids, "The motors, such as th1 th2")
      .flag("--stale", request.stale, "All motors whose label is out of date")
      .option("--pieces", request.pieces, "Labels for the remnants that this plan leaves")
      .flag("--short", request.short_of_strip,
            "With --pieces: what is left when the pieces don't reach")
      .label_sheet(request.labels)
      .option("--out", request.out, "Folder for the PDF (default: out)")
      .records(request.records)
      .flag("--overwrite", request.overwrite, "Replace a file that this program did not write")
      .units(request.units)
      .json(options->json, "What was written")
      .action([options, &context] { run_label(*options, context); });
}

}  // namespace loopledger::terminal
