// SPDX-License-Identifier: MIT
#include "plan/tree.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>

#include "base/text.h"
#include "base/toml_text.h"
#include "plan/syntax_hint.h"

namespace loopledger::plan {
namespace {

Place place_of(const toml::source_region& region, const std::string& file) {
  return {file, static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)};
}

bool before(const Place& a, const Place& b) {
  return a.line != b.line ? a.line < b.line : a.column < b.column;
}

/// Copies the library's tree. Depth is bounded by its limit of brackets in brackets (256), times
/// the parts of a key.
class Copier {
 public:
  explicit Copier(Tree& tree) : tree_(tree) {}

  std::size_t copy(const toml::node& from) {
    const std::size_t index = tree_.nodes.size();
    tree_.nodes.emplace_back();
    Node node;
    node.place = place_of(from.source(), tree_.file);
    if (const auto* text = from.as_string()) {
      node.type = Node::Type::text;
      node.text = text->get();
    } else if (const auto* whole = from.as_integer()) {
      node.type = Node::Type::whole;
      node.whole = whole->get();
      node.number = static_cast<double>(whole->get());
    } else if (const auto* number = from.as_floating_point()) {
      node.type = Node::Type::number;
      node.number = number->get();
    } else if (const auto* truth = from.as_boolean()) {
      node.type = Node::Type::truth;
      node.truth = truth->get();
    } else if (const auto* date = from.as_date()) {
      node.type = Node::Type::date;
      node.date = {date->get().year, date->get().month, date->get().day};
    } else if (const auto* array = from.as_array()) {
      node.type = Node::Type::array;
      for (const toml::node& item : *array) {
        node.items.push_back(copy(item));
      }
    } else if (const auto* table = from.as_table()) {
      node.type = Node::Type::table;
      copy_members(*table, node);
    }
    tree_.nodes[index] = std::move(node);
    return index;
  }

 private:
  void copy_members(const toml::table& table, Node& node) {
    for (auto&& [key, value] : table) {
      Member member;
      member.key = std::string(key.str());
      member.key_place = place_of(key.source(), tree_.file);
      member.node = copy(value);
      node.members.push_back(std::move(member));
    }
    // The library sorts by key; people read by line.
    std::ranges::stable_sort(node.members, before, &Member::key_place);
  }

  Tree& tree_;
};

Place place_of_byte(std::string_view text, std::size_t at, const std::string& file) {
  const std::string_view head = text.substr(0, at);
  const auto line = 1 + std::ranges::count(head, '\n');
  const std::size_t line_start =
      head.rfind('\n') == std::string_view::npos ? 0 : head.rfind('\n') + 1;
  return {file, static_cast<int>(line),
          1 + static_cast<int>(code_point_count(head.substr(line_start)))};
}

Diagnostic syntax_error(const toml::parse_error& e, std::string_view text,
                        const std::string& file) {
  const Place place = place_of(e.source(), file);
  return error("toml-syntax", plain_reason(e.description()),
               syntax_hint(text, place.line, e.description()), place);
}

}  // namespace

std::string_view type_name(Node::Type type) {
  switch (type) {
    case Node::Type::text:
      return "text";
    case Node::Type::whole:
      return "a whole number";
    case Node::Type::number:
      return "a number";
    case Node::Type::truth:
      return "true or false";
    case Node::Type::date:
      return "a date";
    case Node::Type::array:
      return "a list";
    case Node::Type::table:
      return "a table";
    case Node::Type::other:
      break;
  }
  return "a time of day";
}

Result<Tree> parse_tree(std::string_view text, const std::string& file) {
  if (text.size() > kMaxTomlBytes) {
    return error(
        "toml-size",
        fmt::format("the file has {} bytes, at most {} are read", text.size(), kMaxTomlBytes),
        "is this the right file?", {file, 0, 0});
  }
  if (trimmed(text).empty()) {
    return error("toml-empty", "the file is empty",
                 "`loopledger new PLAN` writes one to start from", {file, 0, 0});
  }
  if (const auto bad = first_bad_utf8(text)) {
    return error("toml-utf8",
                 fmt::format("expected UTF-8 text, found the byte 0x{:02x}",
                             static_cast<unsigned char>(text[*bad])),
                 "save the file as UTF-8 in your editor", place_of_byte(text, *bad, file));
  }
  if (const auto dot = first_overlong_key(text)) {
    Diagnostics problems{
        error("toml-size",
              fmt::format("expected keys of at most {} parts, found a longer one", kMaxKeyParts),
              "text and quantities stand in double quotes", place_of_byte(text, *dot, file))};
    add_source_lines(problems, file, std::string(text));
    return problems;
  }
  try {
    const toml::table table = toml::parse(text, std::string_view(file));
    Tree tree;
    tree.file = file;
    Copier(tree).copy(table);
    return tree;
  } catch (const toml::parse_error& e) {
    Diagnostics problems{syntax_error(e, text, file)};
    add_source_lines(problems, file, std::string(text));
    return problems;
  } catch (const std::exception& e) {
    return error("toml-syntax", fmt::format("the file can't be read as TOML: {}", e.what()), {},
                 {file, 0, 0});
  }
}

}  // namespace loopledger::plan
