// SPDX-License-Identifier: MIT
#include "json/schema_keys.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace loopledger::json {
namespace {

/// A shelf's own keys are those of the plan that the reader asks a shelf for.
std::string_view reader_name(const TableWords& table, SchemaOf of) {
  return table.path.empty() && of == SchemaOf::shelf ? "the shelf file" : table.reader;
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

}  // namespace loopledger::json
