// SPDX-License-Identifier: MIT
//
// `schema`: what a plan may say, for editors and for the manual.
#include "terminal/schema.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <ostream>

#include "base/text.h"
#include "commands/exit_code.h"
#include "terminal/command.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {
namespace {

struct SchemaOptions {
  bool shelf = false;
  bool markdown = false;
};

/// A shelf's own keys are those of the plan that the reader asks a shelf for.
std::string_view reader_name(const TableWords& table, SchemaOf of) {
  return table.path.empty() && of == SchemaOf::shelf ? "the shelf file" : table.reader;
}

std::string heading(const TableWords& table) {
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

std::vector<SchemaKey> schema_keys(const TableWords& table, SchemaOf of) {
  std::vector<SchemaKey> keys;
  std::vector<SchemaKey> unworded;
  plan::KnownKeys known = plan::known_keys();
  std::erase_if(known, [&](const plan::KnownKey& k) {
    return k.table != reader_name(table, of) || k.key.find(':') != std::string::npos;
  });
  for (const KeyWords& words : key_words()) {
    const auto found = std::ranges::find(known, words.key, &plan::KnownKey::key);
    if (words.path == table.path && found != known.end()) {
      keys.push_back({*found, words});
      known.erase(found);
    }
  }
  for (plan::KnownKey& rest : known) {
    keys.push_back({std::move(rest), {}});
  }
  return keys;
}

std::string taken_text(const plan::KnownKey& known) {
  if (known.kind == "count") {
    return "whole number";
  }
  if (known.kind == "truth") {
    return "true or false";
  }
  if (known.kind == "text") {
    return fmt::format("text of at most {} characters", known.max_length);
  }
  if (known.kind == "list") {
    return fmt::format("list of at most {}", known.max_items);
  }
  if (known.kind.empty()) {
    return known.key == "date" ? "date" : known.key == "bench" ? "table" : "tables";
  }
  return known.kind + (known.uncertain ? " ±" : "");
}

std::string bounds_text(const plan::KnownKey& known) {
  if (!known.bounded) {
    return {};
  }
  if (known.low == known.high) {
    return known.low_text;
  }
  return known.above_low ? fmt::format("over {}, up to {}", known.low_text, known.high_text)
                         : fmt::format("{} to {}", known.low_text, known.high_text);
}

std::string plan_keys_markdown() {
  std::string out;
  for (const TableWords& table : table_words()) {
    out += fmt::format(
        "### {}\n\n{}\n\n| key | takes | default | example | meaning |\n|---|---|---|---|---|\n",
        heading(table), table.text);
    for (const SchemaKey& key : schema_keys(table, SchemaOf::plan)) {
      const std::string bounds = bounds_text(key.known);
      out += fmt::format("| `{}` | {}{}{} | {} | `{}` | {} |\n", key.known.key,
                         taken_text(key.known), bounds.empty() ? "" : ", ", bounds,
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
                    : plan_schema(options->shelf ? SchemaOf::shelf : SchemaOf::plan).text());
        context.exit_code = commands::kDone;
      });
}

}  // namespace loopledger::terminal
