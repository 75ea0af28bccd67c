// SPDX-License-Identifier: MIT
#include "records/read_entry.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>

#include "base/quantity_text.h"
#include "base/text.h"
#include "base/toml_text.h"
#include "records/fields.h"
#include "records/format.h"
#include "records/source_text.h"

namespace loopledger::records {
namespace {

/// A line that is being read.
struct Reading {
  const Line& line;
  const std::string& file;
  Diagnostics warnings;

  [[nodiscard]] Place at(const toml::source_region& region) const {
    return {file, line.number, static_cast<int>(region.begin.column)};
  }
  [[nodiscard]] Diagnostic not_an_entry(std::string message, const toml::source_region& region) {
    Diagnostic d = warning(
        "record-line", std::move(message),
        "correct the line by hand or take it out, then `loopledger mend --accept`", at(region));
    d.source_line = quoted_line(line.text);
    return d;
  }
  void field_warning(std::string message, std::string hint, const toml::source_region& region) {
    warnings.push_back(warning("record-field", std::move(message), std::move(hint), at(region)));
    warnings.back().source_line = quoted_line(line.text);
  }
};

/// What git and others write around lines that they could not merge.
bool is_conflict_mark(std::string_view line) {
  return line.starts_with("<<<<<<<") || line.starts_with("=======") ||
         line.starts_with(">>>>>>>") || line.starts_with("|||||||");
}

TextPlace text_place(const toml::source_position& p) { return {p.line, p.column}; }

std::optional<std::string> pairs_text(const toml::array& array) {
  std::vector<std::pair<double, std::string>> pairs;
  for (const toml::node& node : array) {
    const toml::array* const pair = node.as_array();
    const auto turns =
        pair != nullptr && pair->size() == 2 ? (*pair)[0].value<double>() : std::nullopt;
    auto torque = turns ? (*pair)[1].value_exact<std::string>() : std::nullopt;
    if (!torque) {
      return std::nullopt;
    }
    pairs.emplace_back(*turns, *std::move(torque));
  }
  return pairs_as_typed(pairs);
}

/// A value as text for set_field; empty when no field is written like that.
std::optional<std::string> typed_text(const toml::node& node) {
  if (auto text = node.value_exact<std::string>()) {
    return text;
  }
  if (node.is_number()) {
    return shortest(*node.value<double>());
  }
  return node.is_array() ? pairs_text(*node.as_array()) : std::nullopt;
}

void keep_unknown(Entry& entry, std::string name, const toml::node& node, const Reading& reading) {
  const toml::source_region& region = node.source();
  entry.unknown.emplace_back(
      std::move(name),
      source_text(reading.line.text, text_place(region.begin), text_place(region.end)));
}

void read_one(Entry& entry, const toml::key& key, const toml::node& node, Reading& reading) {
  const std::string name(key.str());
  if (name == "kind" || name == "sum") {
    return;
  }
  const Field* const field = find_field(entry.kind, name);
  if (field == nullptr) {
    keep_unknown(entry, name, node, reading);
    return;
  }
  const auto text = typed_text(node);
  if (!text) {
    reading.field_warning(fmt::format("{}: the value can't be read and is left out", name), {},
                          node.source());
    keep_unknown(entry, name, node, reading);
    return;
  }
  if (const Diagnostics problems = set_field(entry, *field, *text); !problems.empty()) {
    reading.field_warning(problems.front().message, problems.front().hint, node.source());
    keep_unknown(entry, name, node, reading);
  }
}

Result<Entry> from_table(const toml::table& document, Reading& reading) {
  const auto first = document.begin();  // what it points at lives in it
  const toml::key& key = first->first;
  const toml::node& node = first->second;
  const toml::table* const table = node.as_table();
  if (document.size() != 1 || table == nullptr) {
    return reading.not_an_entry("expected one entry on the line: \"KEY\" = { kind = … }",
                                key.source());
  }
  const auto kind = (*table)["kind"].value_exact<std::string>();
  if (!kind) {
    return reading.not_an_entry("expected an entry with a kind such as kind = \"wound\"",
                                node.source());
  }
  if (table->size() > kMaxFields) {
    return reading.not_an_entry(
        fmt::format("expected an entry of at most {} fields, found {}", kMaxFields, table->size()),
        key.source());
  }
  Entry entry;
  entry.key = std::string(key.str());
  entry.line = reading.line.number;
  // Words are exact in files: what differs in case or hyphens is not ours.
  const auto known = kind_from(*kind);
  entry.kind = known && word(*known) == *kind ? *known : Kind::other;
  entry.kind_text = entry.kind == Kind::other ? *kind : std::string();
  std::vector<std::pair<const toml::key*, const toml::node*>> fields;
  for (const auto& [name, value] : *table) {
    fields.emplace_back(&name, &value);
  }
  std::ranges::sort(fields, [](const auto& a, const auto& b) {
    return a.first->source().begin.column < b.first->source().begin.column;
  });
  for (const auto& [name, value] : fields) {
    read_one(entry, *name, *value, reading);
  }
  entry.edited = !is_sound(take_apart(reading.line.text));
  return {std::move(entry), std::move(reading.warnings)};
}

}  // namespace

Result<Entry> read_entry(const Line& line, const std::string& file) {
  Reading reading{line, file, {}};
  const toml::source_region start{{1, 1}, {1, 1}, nullptr};
  if (line.text.size() > kMaxLineBytes) {
    return reading.not_an_entry(fmt::format("expected a line of at most {} bytes, found {}",
                                            kMaxLineBytes, line.text.size()),
                                start);
  }
  if (is_conflict_mark(line.text)) {
    Diagnostic d = reading.not_an_entry("a mark that an unfinished merge left here", start);
    d.code = "record-conflict";
    d.hint = "take out this line and its fellows; the entries between them may all stay";
    return d;
  }
  if (first_overlong_key(line.text)) {
    return reading.not_an_entry("expected an entry: \"KEY\" = { kind = … }", start);
  }
  try {
    const toml::table document = toml::parse(line.text, std::string_view{});
    if (document.empty()) {
      return reading.not_an_entry("expected an entry: \"KEY\" = { kind = … }", start);
    }
    return from_table(document, reading);
  } catch (const toml::parse_error& e) {
    return reading.not_an_entry(fmt::format("not an entry: {}", plain_reason(e.description())),
                                e.source());
  }
}

}  // namespace loopledger::records
