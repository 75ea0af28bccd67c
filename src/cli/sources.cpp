// SPDX-License-Identifier: MIT
//
// `sources`: defaults, intervals and sources in one table.
#include <memory>
#include <ostream>

#include "cli/command.h"
#include "cli/command_line.h"
#include "cli/exit_code.h"
#include "cli/json.h"
#include "cli/sources_table.h"

namespace loopledger::cli {
namespace {

struct SourcesOptions {
  bool markdown = false;
  bool json = false;
};

Json sources_json() {
  Json rows = Json::array();
  for (const SourceRow& row : sources_table()) {
    rows.push(Json::object()
                  .set("what", row.what)
                  .set("value", row.value)
                  .set("interval", row.interval == "-" ? Json() : Json(row.interval))
                  .set("source", row.source));
  }
  Json out = Json::object();
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
        context.exit_code = kDone;
      });
}

}  // namespace loopledger::cli
