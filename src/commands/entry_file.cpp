// SPDX-License-Identifier: MIT
#include "commands/entry_file.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/quantity_text.h"
#include "base/text.h"
#include "motor/typed_entry.h"
#include "plan/tree.h"
#include "records/fields.h"
#include "tag/id.h"

namespace loopledger::commands {
namespace {

/// One entry as the file has it: names and values as text.
struct RawEntry {
  std::vector<std::pair<std::string, std::string>> values;
  Place place;
};

std::optional<std::string> pairs_text(const plan::Tree& tree, const plan::Node& list) {
  using Type = plan::Node::Type;
  std::vector<std::pair<double, std::string>> pairs;
  for (const std::size_t item : list.items) {
    const plan::Node& pair = tree.at(item);
    if (pair.type != Type::array || pair.items.size() != 2) {
      return std::nullopt;
    }
    const plan::Node& turns = tree.at(pair.items[0]);
    const plan::Node& torque = tree.at(pair.items[1]);
    if ((turns.type != Type::whole && turns.type != Type::number) || torque.type != Type::text) {
      return std::nullopt;
    }
    pairs.emplace_back(turns.number, torque.text);
  }
  return records::pairs_as_typed(pairs);
}

/// Nothing: no field of an entry is written like that.
std::optional<std::string> text_of(const plan::Tree& tree, const plan::Node& node) {
  using Type = plan::Node::Type;
  switch (node.type) {
    case Type::text:
      return node.text;
    case Type::whole:
      return fmt::format("{}", node.whole);
    case Type::number:
      return shortest(node.number);
    case Type::date:
      return iso(node.date);
    case Type::array:
      return pairs_text(tree, node);
    default:
      return std::nullopt;
  }
}

Diagnostic no_value(const std::string& name, const plan::Node& node) {
  using Type = plan::Node::Type;
  return error(
      "log-file",
      fmt::format("{}: expected text or a number, found {}", shortened(name, 40),
                  node.type == Type::other ? "a time without quotes" : plan::type_name(node.type)),
      node.type == Type::array
          ? "several torques are pairs = [[1000, \"30 gf.cm\"], [800, \"18 gf.cm\"]]"
          : "values stand in quotes: at = \"2026-03-04 10:00\", time = \"7:31\"",
      node.place);
}

Result<std::vector<RawEntry>> from_toml(const std::string& text, const std::string& file) {
  const auto tree = plan::parse_tree(text, file);
  if (!tree) {
    return tree.diagnostics();
  }
  std::vector<RawEntry> entries;
  Diagnostics problems;
  for (const plan::Member& member : tree->root().members) {
    const plan::Node& list = tree->at(member.node);
    if (member.key == "format") {
      continue;
    }
    if (member.key != "entries" || list.type != plan::Node::Type::array) {
      problems.push_back(
          error("log-file",
                fmt::format("expected [[entries]] tables, found `{}`", shortened(member.key, 40)),
                "[[entries]] id = \"th1\", kind = \"weighed\", …", member.key_place));
      continue;
    }
    for (const std::size_t item : list.items) {
      const plan::Node& table = tree->at(item);
      RawEntry raw;
      raw.place = table.place;
      for (const plan::Member& value : table.members) {
        const plan::Node& node = tree->at(value.node);
        auto text_as_typed = text_of(*tree, node);
        if (!text_as_typed) {
          problems.push_back(no_value(value.key, node));
          continue;
        }
        raw.values.emplace_back(value.key, *std::move(text_as_typed));
      }
      entries.push_back(std::move(raw));
    }
  }
  if (has_errors(problems)) {
    return problems;
  }
  return entries;
}

/// The records of a CSV text with the line each begins in. Quoted fields may hold commas, doubled
/// quotes and line ends.
class CsvReader {
 public:
  /// Semicolons separate where the head line has them and no comma, as some spreadsheets write.
  explicit CsvReader(const std::string& text) : text_(text) {
    const std::string head = text.substr(0, text.find('\n'));
    const bool semicolons =
        head.find(';') != std::string::npos && head.find(',') == std::string::npos;
    separator_ = semicolons ? ';' : ',';
  }

  struct Row {
    std::vector<std::string> fields;
    int line = 1;
  };

  /// Empty at the end of the text, or at a quote that is never closed: see `open_quote`.
  std::optional<Row> next() {
    while (at_ < text_.size() && (text_[at_] == '\n' || text_[at_] == '\r')) {
      line_ += text_[at_++] == '\n' ? 1 : 0;
    }
    if (at_ >= text_.size()) {
      return std::nullopt;
    }
    Row row;
    row.line = line_;
    row.fields.emplace_back();
    while (at_ < text_.size()) {
      const char c = text_[at_++];
      if (c == '"') {
        if (!quoted(row.fields.back())) {
          open_quote = true;
          open_line = row.line;
          return std::nullopt;
        }
      } else if (c == separator_) {
        row.fields.emplace_back();
      } else if (c == '\n') {
        ++line_;
        break;
      } else if (c != '\r') {
        row.fields.back() += c;
      }
    }
    return row;
  }

  bool open_quote = false;
  int open_line = 0;  ///< where the row of that quote begins

 private:
  bool quoted(std::string& field) {
    while (at_ < text_.size()) {
      const char c = text_[at_++];
      line_ += c == '\n' ? 1 : 0;
      if (c != '"') {
        field += c;
      } else if (at_ < text_.size() && text_[at_] == '"') {
        field += text_[at_++];
      } else {
        return true;
      }
    }
    return false;
  }

  const std::string& text_;
  char separator_ = ',';
  std::size_t at_ = 0;
  int line_ = 1;
};

Result<std::vector<RawEntry>> from_csv(const std::string& text, const std::string& file) {
  if (const auto bad = first_bad_utf8(text)) {
    return error("toml-utf8", "expected UTF-8 text", "save the file as UTF-8", {file, 0, 0});
  }
  constexpr std::string_view kByteOrderMark = "\xef\xbb\xbf";
  const std::string plain = text.starts_with(kByteOrderMark) ? text.substr(3) : text;
  CsvReader reader(plain);
  const auto head = reader.next();
  if (!head) {
    return error("log-csv", "expected a head line such as id,kind,stage,reading, found none",
                 "the first line names the columns, each further one is an entry", {file, 1, 1});
  }
  std::vector<RawEntry> entries;
  Diagnostics problems;
  while (const auto row = reader.next()) {
    const Place place{file, row->line, 1};
    if (row->fields.size() > head->fields.size()) {
      problems.push_back(error("log-csv",
                               fmt::format("expected at most {} fields, found {}",
                                           head->fields.size(), row->fields.size()),
                               "a value with a comma in it stands in quotes", place));
      continue;
    }
    RawEntry raw;
    raw.place = place;
    for (std::size_t i = 0; i < row->fields.size(); ++i) {
      raw.values.emplace_back(lower_ascii(trimmed(head->fields[i])), trimmed(row->fields[i]));
    }
    entries.push_back(std::move(raw));
  }
  if (reader.open_quote) {
    problems.push_back(error("log-csv", "a quote is opened and never closed",
                             "a quote within quotes is written twice: \"a 3\"\" loop\"",
                             {file, reader.open_line, 1}));
  }
  if (has_errors(problems)) {
    return problems;
  }
  return entries;
}

Diagnostic missing(const RawEntry& raw, std::string_view what) {
  return error("log-file", fmt::format("expected `{}` in the entry, found none", what),
               "each entry has an id and a kind", raw.place);
}

/// What a row says of its motor and kind, and its fields as words.
struct RowWords {
  std::string id;
  std::string kind;
  std::vector<std::string> fields;
};

RowWords words_of_row(const RawEntry& raw, FileEntry& out, Diagnostics& said) {
  RowWords words;
  for (const auto& [name, value] : raw.values) {
    if (value.empty()) {
      continue;  // an empty cell says nothing
    }
    if (name == "id") {
      words.id = value;
    } else if (name == "kind") {
      words.kind = value;
    } else if (name == "at") {
      out.at = moment_from_text(value);
      if (!out.at) {
        said.push_back(motor::bad_time(value));
      }
    } else {
      words.fields.push_back(fmt::format("{}={}", name, value));
    }
  }
  if (words.id.empty()) {
    said.push_back(missing(raw, "id"));
  }
  if (words.kind.empty()) {
    said.push_back(missing(raw, "kind"));
  }
  return words;
}

/// Reads one raw entry; faults go to `problems`, with its place.
std::optional<FileEntry> understood(const RawEntry& raw, const std::optional<double>& ratio,
                                    Diagnostics& problems) {
  FileEntry out;
  out.place = raw.place;
  Diagnostics said;
  const RowWords words = words_of_row(raw, out, said);
  if (said.empty()) {
    const auto typed = tag::id_from(words.id);
    append(said, typed.diagnostics());
    auto read = motor::entry_from_typed(words.kind, words.fields, ratio);
    append(said, read.diagnostics());
    if (typed && read) {
      out.id = typed->id;
      out.entry = std::move(read->entry);
      out.in_cranks = read->in_cranks;
    }
  }
  for (Diagnostic d : said) {
    d.place = raw.place;
    problems.push_back(std::move(d));
  }
  return has_errors(said) ? std::nullopt : std::optional(std::move(out));
}

}  // namespace

Result<std::vector<FileEntry>> entries_from_file(const std::string& text, const std::string& file,
                                                 const std::optional<double>& winder_ratio) {
  const auto raw =
      lower_ascii(file).ends_with(".csv") ? from_csv(text, file) : from_toml(text, file);
  if (!raw) {
    return raw.diagnostics();
  }
  Diagnostics problems;
  if (raw->empty() || raw->size() > kMaxFileEntries) {
    return error("log-file",
                 fmt::format("expected 1 to {} entries, found {}", kMaxFileEntries, raw->size()),
                 {}, {file, 0, 0});
  }
  std::vector<FileEntry> entries;
  for (const RawEntry& one : *raw) {
    if (auto entry = understood(one, winder_ratio, problems)) {
      entries.push_back(std::move(*entry));
    }
  }
  add_source_lines(problems, file, text);
  if (has_errors(problems)) {
    return problems;
  }
  return {std::move(entries), std::move(problems)};
}

}  // namespace loopledger::commands
