// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "plan/sections.h"

namespace loopledger::plan {
namespace {

const Bounds<Length> kShortLength{Length{}, Length::m(1)};

template <class T>
std::vector<std::string_view> names_of(const std::vector<T>& all) {
  std::vector<std::string_view> names;
  names.reserve(all.size());
  for (const T& one : all) {
    names.push_back(one.name);
  }
  return names;
}

/// Names for a hint: hundreds of them help nobody.
std::string some_of(std::vector<std::string_view> names) {
  constexpr std::size_t kMostNamed = 20;
  if (names.size() <= kMostNamed) {
    return either(names);
  }
  const std::size_t more = names.size() - kMostNamed;
  names.resize(kMostNamed);
  return fmt::format("{}, and {} more", fmt::join(names, ", "), more);
}

std::string section_of(std::string_view key) {
  return key == "rings" ? std::string(key) : fmt::format("{}s", key);
}

/// A table's name as it stands in brackets: anything but letters, digits, - and _ needs quotes.
std::string bare_or_quoted(const std::string& name) {
  const bool bare = !name.empty() && std::ranges::all_of(name, [](char c) {
    return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-' || c == '_';
  });
  return bare ? name : fmt::format("\"{}\"", name);
}

/// The index of the thing that `key` names, or a fault with the nearest name.
template <class T>
std::optional<std::size_t> reference(TableReader& reader, std::string_view key,
                                     const std::vector<T>& all) {
  Placed<std::string> name;
  reader.read(key, name, kMaxNameLength);
  if (!name.given) {
    return std::nullopt;
  }
  const auto found = std::ranges::find(all, name.value, &T::name);
  if (found != all.end()) {
    return static_cast<std::size_t>(found - all.begin());
  }
  const std::vector<std::string_view> names = names_of(all);
  const std::string_view near = nearest(name.value, names);
  reader.problem("plan-name",
                 fmt::format("{}: expected the name of a table [{}.NAME], found \"{}\"", key,
                             section_of(key), name.value),
                 !near.empty()   ? fmt::format("did you mean \"{}\"?", near)
                 : names.empty() ? fmt::format("add a table [{}.{}]", section_of(key),
                                               bare_or_quoted(name.value))
                                 : fmt::format("the plan and its shelf have {}", some_of(names)),
                 name.place);
  return std::nullopt;
}

void read_ids(TableReader& reader, MotorGroup& group) {
  reader.read("id", group.stem, kMaxNameLength);
  if (group.stem.given && !is_stem(group.stem.value)) {
    reader.problem("plan-value",
                   fmt::format("id: expected 1 to {} letters or digits, found \"{}\"",
                               kStemMaxLength, group.stem.value),
                   "such as id = \"TH\"; the number is added", group.stem.place);
  }
  group.stem.value = upper_ascii(group.stem.value);
  if (group.stem.place.line == 0) {
    reader.missing("id", "the stem of the motors' names: id = \"TH\" gives TH-01, TH-02 …");
  }
  reader.read("count", group.count, Bounds<int>{1, kMaxMotors});
  reader.read("first", group.first, Bounds<int>{1, kMotorNumberMax});
  if (group.first.value + group.count.value - 1 > kMotorNumberMax) {
    reader.problem("plan-bounds",
                   fmt::format("{} motors from number {} on pass the last number {}",
                               group.count.value, group.first.value, kMotorNumberMax),
                   "use another stem", group.count.place);
  }
}

void read_parts(TableReader& reader, const Plan& plan, MotorGroup& group) {
  reader.read("for", group.purpose);
  reader.read("owner", group.owner, kMaxNameLength);
  group.rule = reference(reader, "rule", plan.rules);
  const bool strip_named = reader.find("strip") != nullptr;
  const auto strip = reference(reader, "strip", plan.strips);
  if (strip) {
    group.strip = *strip;
    group.strip_named = true;
  } else if (!strip_named && !group.choosing && plan.strips.size() > 1) {
    reader.missing("strip", fmt::format("one of {}", some_of(names_of(plan.strips))));
  }
  group.rings = reference(reader, "rings", plan.rings);
  group.lubricant = reference(reader, "lubricant", plan.lubricants);
  group.adhesive = reference(reader, "adhesive", plan.adhesives);
  group.recipe = reference(reader, "recipe", plan.recipes);
}

/// mass = "limit" or a mass of washed rubber.
void read_mass(TableReader& reader, MotorGroup& group) {
  const Node* const node = reader.find("mass");
  if (node == nullptr) {
    return;
  }
  group.mass.place = node->place;
  if (node->type == Node::Type::text && lower_ascii(trimmed(node->text)) == "limit") {
    group.mass_is_limit = true;
    return;
  }
  reader.read("mass", group.mass, Bounds<Mass>{Mass{}, Mass::kg(1), true});
}

void check_size(TableReader& reader, const Plan& plan, MotorGroup& group) {
  const bool names_rule = reader.find("rule") != nullptr;
  if (group.choosing && plan.rules.empty() && !names_rule) {
    reader.missing("mass",
                   "give mass = \"limit\", a mass such as \"1.45 g\", or loop = \"300 mm\"; or a "
                   "rule, then `check` shows what each strip gives");
  }
  if ((!group.mass_is_limit && !group.choosing) || group.rule || names_rule) {
    return;
  }
  if (plan.rules.size() == 1) {
    group.rule = 0;
  } else if (group.mass_is_limit) {
    reader.problem("plan-missing", "mass = \"limit\": expected a `rule` that says the limit",
                   plan.rules.empty() ? "add a table [rules.NAME] and rule = \"NAME\""
                                      : fmt::format("one of {}", some_of(names_of(plan.rules))),
                   group.mass.place);
  } else if (plan.rules.size() > 1) {
    reader.missing("mass", fmt::format("give a mass or a loop; or a rule, one of {}, then `check` "
                                       "shows what each strip gives",
                                       some_of(names_of(plan.rules))));
  }
}

void check_strands(TableReader& reader, const MotorGroup& group) {
  if (group.strands.given && group.strands.value % 2 != 0) {
    reader.problem("plan-value",
                   fmt::format("strands: expected an even number, found {}", group.strands.value),
                   fmt::format("a loop has 2 strands, a skein {} or {}", group.strands.value - 1,
                               group.strands.value + 1),
                   group.strands.place);
  }
}

}  // namespace

MotorGroup read_motors(const Tree& tree, const Node& table, const Plan& plan,
                       Diagnostics& problems) {
  MotorGroup group;
  group.place = table.place;
  TableReader reader(tree, table, "[[motors]]", problems);
  group.choosing = reader.find("mass") == nullptr && reader.find("loop") == nullptr;
  read_ids(reader, group);
  read_parts(reader, plan, group);
  reader.read("strands", group.strands, Bounds<int>{2, 200});
  check_strands(reader, group);
  reader.read("knot", group.knot, kShortLength);
  reader.read("tails", group.tails, kShortLength);
  reader.read("allowance", group.allowance, kShortLength);
  read_mass(reader, group);
  reader.read("loop", group.loop, Bounds<Length>{Length::mm(5), Length::m(20)});
  reader.read("window", group.window, Bounds<Mass>{Mass{}, Mass::g(10), true});
  reader.read("hooks", group.hooks, Bounds<Length>{Length::mm(5), Length::m(20)});
  reader.read("part", group.part, Bounds<double>{0.05, 0.95});
  check_size(reader, plan, group);
  reader.finish();
  if (!group.window.given) {
    group.window.value = std::max(Mass::mg(3), 2 * plan.bench.scale_step.value);
  }
  return group;
}

}  // namespace loopledger::plan
