// SPDX-License-Identifier: MIT
//
// `sources` in words, and as the table of the README.
#include "commands/sources.h"

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "commands/exit_code.h"
#include "json/sources_json.h"
#include "terminal/command.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {
namespace {

struct SourcesOptions {
  bool markdown = false;
  bool json = false;
};

/// Each row on lines of at most 100 columns.
std::string text_of(const commands::SourcesAnswer& answer) {
  std::string out;
  for (const commands::SourceRow& row : answer.rows) {
    out += fmt::format("{}: {}{}\n    {}\n", row.what, row.value,
                       row.interval == "-" ? "" : "; " + row.interval, row.source);
  }
  return out;
}

/// The table of the README.
std::string markdown_of(const commands::SourcesAnswer& answer) {
  std::string out = "| what | value | interval | source |\n|---|---|---|---|\n";
  for (const commands::SourceRow& row : answer.rows) {
    out += fmt::format("| {} | {} | {} | {} |\n", row.what, row.value,
                       row.interval == "-" ? "" : row.interval, row.source);
  }
  return out;
}

}  // namespace

void add_sources(CommandLine& line, Context& context) {
  auto options = std::make_shared<SourcesOptions>();
  line.add("sources", "Show the defaults and where every figure comes from")
      .flag("--markdown", options->markdown, "As the table of the README")
      .json(options->json, "The table")
      .either_or("--markdown", "--json")
      .action([options, &context] {
        const commands::SourcesAnswer answer = commands::sources();
        context.out << (options->json       ? json::to_json(answer).text()
                        : options->markdown ? markdown_of(answer)
                                            : text_of(answer));
        context.exit_code = commands::kDone;
      });
}

}  // namespace loopledger::terminal
