// SPDX-License-Identifier: MIT
//
// Rules and recipes: tables that may take a template.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.h"
#include "plan/sections.h"

namespace loopledger::plan {
namespace {

constexpr std::size_t kMaxSteps = 50;
constexpr std::size_t kMaxStepNote = 80;      ///< it has to fit a line of the sheet
constexpr std::size_t kMaxNoteLength = 1000;  ///< source and check of a template

void read_counts(TableReader& reader, Rule& rule) {
  const Node* const node = reader.find("counts");
  if (node == nullptr) {
    return;
  }
  rule.counts.place = node->place;
  Counts counts;
  counts.rubber = false;
  for (const Node* item : reader.list("counts", kCountWords.size())) {
    const auto text = reader.text_of(*item, "counts", kMaxNameLength);
    if (!text) {
      continue;
    }
    if (bool Counts::*const part = count_from(*text)) {
      counts.*part = true;
    } else {
      const std::vector<std::string_view> all = words(Counts{true, true, true, true});
      const std::string_view near = nearest(as_word(*text), all);
      reader.problem(
          "plan-value", fmt::format("counts: \"{}\" is not one of {}", *text, either(all)),
          near.empty() ? std::string{} : fmt::format("did you mean \"{}\"?", near), item->place);
    }
  }
  if (!counts.rubber && node->type == Node::Type::array) {
    reader.problem("plan-value", fmt::format("rule \"{}\": rubber always counts", rule.name),
                   "counts = [\"rubber\", …]", node->place);
    return;
  }
  rule.counts.value = counts;
  rule.counts.given = true;
}

void read_weighed(TableReader& reader, Rule& rule) {
  Placed<std::string> text;
  reader.read("weighed", text, kMaxNameLength);
  if (!text.given) {
    return;
  }
  rule.weighed.place = text.place;
  if (const auto weighed = weighed_from(text.value)) {
    rule.weighed.value = *weighed;
    rule.weighed.given = true;
  } else {
    reader.problem(
        "plan-value",
        fmt::format("weighed: expected \"fresh\" or \"rested\", found \"{}\"", text.value),
        "fresh: lubricant as just rubbed in; rested: what is left later", text.place);
  }
}

void read_rule_keys(TableReader& reader, Rule& rule) {
  reader.read("limit", rule.limit, Bounds<Mass>{Mass{}, Mass::kg(1), true});
  read_counts(reader, rule);
  read_weighed(reader, rule);
  reader.read("official_error", rule.official_error, Bounds<Mass>{Mass{}, Mass::g(1)});
  reader.read("source", rule.source, kMaxNoteLength);
  reader.read("check", rule.check, kMaxNoteLength);
}

RecipeStep read_step(TableReader& outer, const Node& node) {
  RecipeStep step;
  step.place = node.place;
  if (node.type != Node::Type::table) {
    outer.problem("plan-type", "steps: expected a table, as in { stretch = 5.0, hold = \"5 min\" }",
                  {}, node.place);
    return step;
  }
  TableReader reader(outer.tree(), node, "recipe step", outer.problems());
  Placed<double> stretch;
  Placed<int> repeat{.value = 1, .place = {}};
  const Bounds<Share> share{Share{}, Share::percent(100), true};
  reader.read("stretch", stretch, Bounds<double>{1, 8});
  reader.read("turns", step.turns, share);
  reader.read("torque", step.torque, share);
  reader.read("note", step.note, kMaxStepNote);
  reader.read("hold", step.hold, Bounds<Duration>{Duration{}, Duration::h(24 * 7)});
  reader.read("rest", step.rest, Bounds<Duration>{Duration{}, Duration::h(24 * 60)});
  reader.read("repeat", repeat, Bounds<int>{1, 100});
  reader.finish();
  if (stretch.given) {
    step.stretch = stretch.value;
  }
  step.repeat = repeat.value;
  const bool says = node.members.size() > (repeat.place.line > 0 ? 1u : 0u);
  if (!says) {
    reader.problem("plan-missing", "recipe step: says nothing to do",
                   "give a stretch, turns, a torque, a hold, a rest or a note", node.place);
  }
  return step;
}

void read_recipe_keys(TableReader& reader, Recipe& recipe) {
  const std::vector<const Node*> steps = reader.list("steps", kMaxSteps);
  if (!steps.empty()) {
    recipe.steps.clear();
    recipe.source.clear();  // steps of one's own are not the template's
  }
  for (const Node* node : steps) {
    recipe.steps.push_back(read_step(reader, *node));
  }
  reader.read("source", recipe.source, kMaxNoteLength);
}

/// Reads the template that a table takes, with the same keys as the table's own. False: it asks for
/// one that can't be had, so what is missing is no fault of the table's.
template <class Read>
bool take_template(TableReader& reader, const std::string& folder, const Sources& sources,
                   Read read_keys) {
  Placed<std::string> name;
  reader.read("take", name, kMaxNameLength);
  if (!name.given) {
    return name.place.line == 0;
  }
  const auto loaded = sources.from_templates(folder, name.value);
  for (Diagnostic d : loaded.diagnostics()) {
    d.place = name.place;
    reader.problems().push_back(std::move(d));
  }
  if (!loaded) {
    return false;
  }
  auto tree = parse_tree(loaded->text, loaded->file);
  append(reader.problems(), tree.diagnostics());
  if (!tree) {
    return false;
  }
  Diagnostics problems;
  TableReader inner(*tree, tree->root(), loaded->file, problems);
  read_keys(inner);
  inner.finish();
  add_source_lines(problems, loaded->file, loaded->text);
  append(reader.problems(), problems);
  return true;
}

}  // namespace

Rule read_rule(const NamedTable& from, const Sources& sources, Diagnostics& problems) {
  Rule rule;
  rule.name = from.name;
  rule.place = from.table->place;
  TableReader reader(*from.tree, *from.table, fmt::format("rule \"{}\"", from.name), problems);
  const bool taken =
      take_template(reader, "rules", sources, [&](TableReader& r) { read_rule_keys(r, rule); });
  read_rule_keys(reader, rule);
  reader.finish();
  if (taken && rule.limit.place.line == 0) {
    reader.missing("limit", "the motor's largest mass: limit = \"1.5 g\"");
  }
  if (taken && rule.counts.place.line == 0) {
    reader.missing("counts",
                   "what is on the scale at the event: counts = [\"rubber\", \"lubricant\"]; rings "
                   "and adhesive if they are weighed with it");
  }
  return rule;
}

Recipe read_recipe(const NamedTable& from, const Sources& sources, Diagnostics& problems) {
  Recipe recipe;
  recipe.name = from.name;
  recipe.place = from.table->place;
  TableReader reader(*from.tree, *from.table, fmt::format("recipe \"{}\"", from.name), problems);
  const bool taken = take_template(reader, "recipes", sources,
                                   [&](TableReader& r) { read_recipe_keys(r, recipe); });
  read_recipe_keys(reader, recipe);
  reader.finish();
  if (taken && recipe.steps.empty()) {
    reader.missing("steps", "steps = [{ stretch = 5.0, hold = \"5 min\" }]");
  }
  return recipe;
}

}  // namespace loopledger::plan
