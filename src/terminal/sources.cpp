// SPDX-License-Identifier: MIT
//
// `sources`: defaults, intervals and sources in one table.
#include <memory>
#include <ostream>

#include "commands/exit_code.h"
#include "json/json.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/sources_table.h"

namespace loopledger::terminal {
namespace {

struct SourcesOptions {
  bool markdown = false;
  bool json = false;
};

json::Json sources_json() {
  json::Json rows = json::Json::array();
  for (const SourceRow& row : sources_table()) {
    rows.push(json::Json::object()
                  .set("what", row.what)
                  .set("value", row.value)
                  .set("interval", row.interval == "-" ? json::Json() : json::Json(row.interval))
                  .set("source", row.source));
  }
  json::Json out = json::Json::object();
  out.set("format", 1).set("sources", std::move(rows));
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
        context.out << (options->json       ? sources_json().text()
                        : options->markdown ? sources_markdown()
                                            : sources_text());
        context.exit_code = commands::kDone;
      });
}

}  // namespace loopledger::terminal
