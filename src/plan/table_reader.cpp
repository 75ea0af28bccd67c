// SPDX-License-Identifier: MIT
#include "plan/table_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.h"

namespace loopledger::plan {
namespace {

constexpr int kQuoted = 60;               ///< columns of a value that a message repeats
constexpr std::size_t kMostUnknown = 20;  ///< unknown keys of one table that are told one by one

std::string as_written(const Node& node) {
  switch (node.type) {
    case Node::Type::text:
      return fmt::format("\"{}\"", shortened(node.text, kQuoted));
    case Node::Type::whole:
      return fmt::format("{}", node.whole);
    case Node::Type::number:
      return shortest(node.number);
    default:
      return std::string(type_name(node.type));
  }
}

}  // namespace

std::string bound_text(Mass value) {
  return value > Mass{} && value < Mass::g(1) ? rounded(value.in_mg(), 6) + " mg" : exact(value);
}

std::string bound_text(Length value) {
  return value >= Length::m(1) ? rounded(value.in_m(), 6) + " m" : exact(value);
}

KnownKey* TableReader::note(std::string_view key) {
  if (tree_.asked == nullptr) {
    return nullptr;
  }
  for (KnownKey& known : *tree_.asked) {
    if (known.table == what_ && known.key == key) {
      return &known;
    }
  }
  tree_.asked->push_back({});
  tree_.asked->back().table = what_;
  tree_.asked->back().key = key;
  return &tree_.asked->back();
}

const Node* TableReader::find(std::string_view key) {
  note(key);
  if (std::ranges::find(known_, key) == known_.end()) {
    known_.push_back(key);
  }
  for (const Member& member : table_.members) {
    if (member.key == key) {
      return &tree_.at(member.node);
    }
  }
  return nullptr;
}

void TableReader::problem(std::string code, std::string message, std::string hint,
                          const Place& place) {
  problems_.push_back(error(std::move(code), std::move(message), std::move(hint), place));
}

void TableReader::missing(std::string_view key, std::string hint) {
  problem("plan-missing", fmt::format("{}: expected the key `{}`, found none", what_, key),
          std::move(hint), table_.place);
}

void TableReader::wrong_type(const Node& node, std::string_view key, std::string_view wanted,
                             std::string hint) {
  problem("plan-type", fmt::format("{}: expected {}, found {}", key, wanted, type_name(node.type)),
          std::move(hint), node.place);
}

std::optional<std::string> TableReader::quantity_text(const Node& node, std::string_view key) {
  if (node.type == Node::Type::text) {
    return node.text;
  }
  if (node.type == Node::Type::whole || node.type == Node::Type::number) {
    return shortest(node.number);
  }
  wrong_type(node, key, "a quantity in quotes", "for example \"1.5 g\" or \"300 mm\"");
  return std::nullopt;
}

void TableReader::take_over(const Diagnostics& from, const Node& node, std::string_view key) {
  for (Diagnostic d : from) {
    d.message = fmt::format("{}: {}", key, d.message);
    d.place = node.place;
    problems_.push_back(std::move(d));
  }
}

void TableReader::out_of_bounds(const Node& node, std::string_view key, const std::string& low,
                                const std::string& high, bool above_low) {
  if (low == high) {
    problem("plan-bounds", fmt::format("{}: expected {}, found {}", key, low, as_written(node)),
            "this version knows no other", node.place);
    return;
  }
  problem("plan-bounds",
          fmt::format("{}: expected {} {} and at most {}, found {}", key,
                      above_low ? "more than" : "at least", low, high, as_written(node)),
          "check the number and its unit", node.place);
}

void TableReader::too_uncertain(const Node& node, std::string_view key, const std::string& most) {
  problem(
      "plan-bounds",
      fmt::format("{}: expected at most {} behind the ±, found {}", key, most, as_written(node)),
      "the standard uncertainty, in the value's unit or before one unit for both", node.place);
}

void TableReader::read(std::string_view key, Placed<double>& to, const Bounds<double>& bounds) {
  note_quantity<double>(key, bounds);
  const Node* const node = find(key);
  if (node == nullptr) {
    return;
  }
  to.place = node->place;
  const auto text = quantity_text(*node, key);
  const auto value = text ? number_from(*text) : std::nullopt;
  if (!text) {
    return;
  }
  if (!value) {
    problem("plan-type", fmt::format("{}: expected a number, found {}", key, as_written(*node)),
            "a bare number without a unit", node->place);
  } else if (!is_within(*value, bounds)) {
    out_of_bounds(*node, key, shortest(bounds.low), shortest(bounds.high), bounds.above_low);
  } else {
    to.value = *value;
    to.given = true;
  }
}

void TableReader::read(std::string_view key, Placed<int>& to, const Bounds<int>& bounds) {
  note_quantity<double>(
      key, Bounds<double>{static_cast<double>(bounds.low), static_cast<double>(bounds.high)});
  if (KnownKey* const known = note(key)) {
    known->kind = "count";
  }
  const Node* const node = find(key);
  if (node == nullptr) {
    return;
  }
  to.place = node->place;
  if (node->type != Node::Type::whole) {
    wrong_type(*node, key, "a whole number", "a count is a bare whole number, without quotes");
  } else if (node->whole < bounds.low || node->whole > bounds.high) {
    out_of_bounds(*node, key, fmt::format("{}", bounds.low), fmt::format("{}", bounds.high), false);
  } else {
    to.value = static_cast<int>(node->whole);
    to.given = true;
  }
}

void TableReader::read(std::string_view key, Placed<bool>& to) {
  if (KnownKey* const known = note(key)) {
    known->kind = "truth";
  }
  const Node* const node = find(key);
  if (node == nullptr) {
    return;
  }
  to.place = node->place;
  if (node->type != Node::Type::truth) {
    wrong_type(*node, key, "true or false", "without quotes");
    return;
  }
  to.value = node->truth;
  to.given = true;
}

std::optional<std::string> TableReader::text_of(const Node& node, std::string_view key,
                                                std::size_t max) {
  note_text(key, max);
  if (node.type != Node::Type::text) {
    wrong_type(node, key, "text in quotes", "text stands in double quotes");
    return std::nullopt;
  }
  if (printable(node.text) != node.text) {
    problem("plan-text", fmt::format("{}: expected plain text, found control characters", key),
            "take out line breaks, tabs and direction marks", node.place);
    return std::nullopt;
  }
  if (const std::size_t count = code_point_count(node.text); count > max) {
    problem("plan-bounds",
            fmt::format("{}: expected at most {} characters, found {}", key, max, count),
            "shorten the text", node.place);
    return std::nullopt;
  }
  return node.text;
}

void TableReader::note_text(std::string_view key, std::size_t max) {
  if (KnownKey* const known = note(key)) {
    known->max_length = max;
    if (known->kind.empty()) {
      known->kind = "text";
    }
  }
}

void TableReader::read(std::string_view key, Placed<std::string>& to, std::size_t max) {
  note_text(key, max);
  const Node* const node = find(key);
  if (node == nullptr) {
    return;
  }
  to.place = node->place;
  if (auto text = text_of(*node, key, max)) {
    to.value = *text;
    to.given = true;
  }
}

void TableReader::read(std::string_view key, std::string& to, std::size_t max) {
  Placed<std::string> placed;
  read(key, placed, max);
  if (placed.given) {
    to = placed.value;
  }
}

std::vector<const Node*> TableReader::list(std::string_view key, std::size_t max_items) {
  if (KnownKey* const known = note(key)) {
    known->kind = "list";
    known->max_items = max_items;
  }
  const Node* const node = find(key);
  if (node == nullptr) {
    return {};
  }
  if (node->type != Node::Type::array) {
    wrong_type(*node, key, "a list in square brackets", fmt::format("{} = [ … ]", key));
    return {};
  }
  if (node->items.size() > max_items) {
    problem(
        "plan-bounds",
        fmt::format("{}: expected at most {} items, found {}", key, max_items, node->items.size()),
        "take out what isn't needed", node->place);
    return {};
  }
  std::vector<const Node*> items;
  for (const std::size_t item : node->items) {
    items.push_back(&tree_.at(item));
  }
  return items;
}

std::optional<std::pair<Length, Length>> TableReader::two_lengths(std::string_view key,
                                                                  const Bounds<Length>& bounds,
                                                                  const std::string& example) {
  const Node* const node = find(key);
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->type != Node::Type::array || node->items.size() != 2) {
    problem("plan-type", fmt::format("{}: expected two lengths, across and down", key), example,
            node->place);
    return std::nullopt;
  }
  const auto across = quantity<Length>(tree_.at(node->items[0]), key, bounds);
  const auto down = quantity<Length>(tree_.at(node->items[1]), key, bounds);
  return across && down ? std::optional(std::pair{*across, *down}) : std::nullopt;
}

namespace {

/// Keys that stand above all tables; below one they belong to that.
bool is_top_key(std::string_view key) {
  constexpr std::array<std::string_view, 10> kTop{"format", "title", "date",    "take", "paper",
                                                  "labels", "slip",  "records", "link", "units"};
  return std::ranges::find(kTop, key) != kTop.end();
}

}  // namespace

bool TableReader::is_top() const { return &table_ == &tree_.root(); }

void TableReader::finish() {
  std::size_t unknown = 0;
  for (const Member& member : table_.members) {
    if (std::ranges::find(known_, member.key) != known_.end() || ++unknown > kMostUnknown) {
      continue;
    }
    if (is_top_key(member.key) && !is_top()) {
      problem(
          "plan-key",
          fmt::format("{}: `{}` is no key of this table", what_, shortened(member.key, kQuoted)),
          fmt::format("`{}` stands at the top, above the first line in [ ]", member.key),
          member.key_place);
      continue;
    }
    const std::string_view near = nearest(member.key, known_);
    std::vector<std::string_view> names(known_);
    std::ranges::sort(names);
    problem("plan-key", fmt::format("{}: unknown key `{}`", what_, shortened(member.key, kQuoted)),
            near.empty() ? fmt::format("keys here are {}", either(names))
                         : fmt::format("did you mean `{}`?", near),
            member.key_place);
  }
  if (unknown > kMostUnknown) {
    problem("plan-key", fmt::format("{}: {} more unknown keys", what_, unknown - kMostUnknown),
            "is this the right file?", table_.place);
  }
}

}  // namespace loopledger::plan
