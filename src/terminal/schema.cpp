// SPDX-License-Identifier: MIT
//
// `schema`: what a plan may say, for editors and for the manual.
#include "terminal/schema.h"

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "commands/exit_code.h"
#include "json/plan_schema.h"
#include "terminal/command.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {
namespace {

using json::SchemaOf;

struct SchemaOptions {
  bool shelf = false;
  bool markdown = false;
};

std::string heading(const json::TableWords& table) {
  if (table.path.empty()) {
    return "At the top";
  }
  if (table.path == "motors") {
    return "`[[motors]]`";
  }
  const auto dot = table.path.rfind('.');
  const bool of_list = dot != std::string_view::npos && table.path.substr(dot) != ".NAME";
  return of_list
             ? fmt::format("`{}` of `[{}]`", table.path.substr(dot + 1), table.path.substr(0, dot))
             : fmt::format("`[{}]`", table.path);
}

/// A row's cell: a "|" would end it.
std::string table_cell(std::string_view text) {
  std::string out;
  for (const char c : text) {
    out += c == '|' ? "\\|" : std::string(1, c);
  }
  return out;
}

}  // namespace

std::string plan_keys_markdown() {
  std::string out;
  for (const json::TableWords& table : json::table_words()) {
    out += fmt::format(
        "### {}\n\n{}\n\n| key | takes | default | example | meaning |\n|---|---|---|---|---|\n",
        heading(table), table.text);
    for (const json::SchemaKey& key : json::schema_keys(table, SchemaOf::plan)) {
      const std::string bounds = json::bounds_text(key.known);
      out += fmt::format("| `{}` | {}{}{} | {} | `{}` | {} |\n", key.known.key,
                         json::taken_text(key.known), bounds.empty() ? "" : ", ", bounds,
                         key.words.fallback.empty() ? std::string(key.words.otherwise)
                                                    : fmt::format("`{}`", key.words.fallback),
                         table_cell(key.words.example), table_cell(key.words.text));
    }
    out += '\n';
  }
  out.pop_back();
  return out;
}

void add_schema(CommandLine& line, Context& context) {
  auto options = std::make_shared<SchemaOptions>();
  line.add("schema", "Print the JSON Schema of a plan, for editors that check while you type")
      .flag("--shelf", options->shelf, "Of a shelf file instead")
      .flag("--markdown", options->markdown, "The keys as the tables of the manual")
      .either_or("--shelf", "--markdown")
      .action([options, &context] {
        context.out
            << (options->markdown
                    ? plan_keys_markdown()
                    : json::plan_schema(options->shelf ? SchemaOf::shelf : SchemaOf::plan).text());
        context.exit_code = commands::kDone;
      });
}

}  // namespace loopledger::terminal
