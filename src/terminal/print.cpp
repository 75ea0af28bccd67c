// SPDX-License-Identifier: MIT
//
// `print PLAN` in words.
#include "commands/print.h"

#include <fmt/format.h>

#include <memory>
#include <ostream>
#include <string>

#include "commands/test_page.h"
#include "json/print_json.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/cutting_text.h"

namespace loopledger::terminal {
namespace {

struct PrintOptions {
  commands::PrintRequest request;
  bool test_page = false;
  bool json = false;
};

std::string print_text(const commands::PrintAnswer& answer) {
  std::string text;
  for (const commands::WrittenFile& file : answer.files) {
    text +=
        fmt::format("Wrote {} ({} page{})\n", file.path, file.pages, file.pages == 1 ? "" : "s");
  }
  text += fmt::format("Opened {} record{} in {}", answer.opened.size(),
                      answer.opened.size() == 1 ? "" : "s", answer.records);
  text += answer.kept > 0 ? fmt::format("; {} {} there already, unchanged\n", answer.kept,
                                        answer.kept == 1 ? "was" : "were")
                          : "\n";
  if (const std::string shelf = shelf_lines(answer.plan, answer.batch); !shelf.empty()) {
    text += "When all is cut, the shelf's pieces are:\n" + shelf;
  }
  return text;
}

/// Where the page is, and what to do with it.
std::string test_page_text(const commands::TestPageAnswer& answer) {
  const plan::Stock& stock = answer.stock;
  const bool bars = stock.dpi == 0;
  std::string text = fmt::format("Wrote {}: {}\n", answer.file->path, stock.text);
  text +=
      "Print it in full size, lay it over the labels against the light, and write how far right\n"
      "and down of them the outlines stand (left and up: minus)";
  text += bars ? ", and what the bars of 100 mm measure" : "";
  text += fmt::format(", into\n{}:\n", answer.printer_file);
  text += fmt::format("  [stock.\"{}\"]\n  shift = [\"0.6 mm\", \"-0.3 mm\"]\n", stock.name);
  return text + (bars ? "  bars = [\"99.6 mm\", \"100.2 mm\"]\n" : "");
}

void run_test_page(const PrintOptions& options, Context& context) {
  const commands::PrintRequest& request = options.request;
  const commands::TestPageAnswer answer = commands::test_page({.plan = request.plan,
                                                               .labels = request.labels.stock,
                                                               .paper = request.paper,
                                                               .out = request.out,
                                                               .overwrite = request.overwrite},
                                                              context.world);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (answer.file) {
    context.out << test_page_text(answer);
  }
  context.exit_code = report(context, answer.said);
}

void run_print(const PrintOptions& options, Context& context) {
  const commands::PrintAnswer answer = commands::print(options.request, context.world);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (!has_errors(answer.said)) {
    context.out << print_text(answer);
  }
  context.exit_code = report(context, answer.said);
}

}  // namespace

void add_print(CommandLine& line, Context& context) {
  auto options = std::make_shared<PrintOptions>();
  commands::PrintRequest& request = options->request;
  Command command =
      line.add("print", "Print cut sheet, break-in sheet and labels; open a record for each motor");
  command.word("PLAN", request.plan, "The plan, or - for standard input")
      .option("--out", request.out, "Folder for the PDFs (default: out, beside the plan)")
      .records(request.records)
      .list("--only", request.only, "Only these motors, such as TH-01,TH-02")
      .flag("--new", request.new_only, "Only motors without a record")
      .either_or("--new", "--only")
      .label_sheet(request.labels)
      .option("--paper", request.paper, "Paper of the sheets: a4, letter, or a .toml file")
      .flag("--test-page", options->test_page,
            "Print the labels' outlines and bars to measure the printer by, nothing else")
      .flag("--short", request.short_of_strip, "Print what can be cut when the pieces don't reach")
      .flag("--overwrite", request.overwrite, "Replace files that this program did not write")
      .units(request.units)
      .json(options->json, "What was written");
  for (const char* of_motors : {"--only", "--new", "--short", "--layout", "--start", "--copies"}) {
    command.either_or("--test-page", of_motors);
  }
  command.action([options, &context] {
    options->test_page ? run_test_page(*options, context) : run_print(*options, context);
  });
}

}  // namespace loopledger::terminal
