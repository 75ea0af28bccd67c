// SPDX-License-Identifier: MIT
#include <cmath>
#include <string>

#include "base/text.h"
#include "fuzz/claim.h"
#include "fuzz/targets.h"
#include "plan/read.h"
#include "plan/table_reader.h"
#include "plan/tree.h"

namespace loopledger::fuzz {
namespace {

constexpr std::string_view kBetween = "####\n";
constexpr std::string_view kPlan = "night.toml";

/// Up to the next line of four #; what is behind it stays in `rest`.
std::string next_text(std::string_view& rest) {
  const std::size_t at = rest.find(kBetween);
  const std::string text(rest.substr(0, at));
  rest = at == std::string_view::npos ? std::string_view{} : rest.substr(at + kBetween.size());
  return text;
}

/// Any shelf that a plan asks for is the second text, any template the third.
plan::Sources sources_of(const std::string& shelf, const std::string& from_templates) {
  plan::Sources sources;
  sources.shelf = [&shelf](const std::string& path) -> Result<plan::Loaded> {
    claim_harmless(path);
    if (path.find("none") != std::string::npos) {
      return error("disk-missing", "no shelf file: " + path);
    }
    return plan::Loaded{path, shelf};
  };
  sources.from_templates = [&from_templates](const std::string& folder,
                                             const std::string& name) -> Result<plan::Loaded> {
    claim(folder == "rules" || folder == "recipes", "a template of another folder", folder);
    claim_harmless(name);
    return plan::Loaded{name + ".toml", from_templates};
  };
  return sources;
}

template <class Q>
void claim_between(const plan::Placed<Q>& value, Q low, Q high, std::string_view what) {
  claim(!value.given || (value.value >= low && value.value <= high), what);
}

void claim_text(const std::string& text, std::size_t most) {
  claim_harmless(text);
  claim(code_point_count(text) <= most, "a text longer than its bound", text);
}

void claim_strip(const plan::Strip& strip) {
  claim_text(strip.name, plan::kMaxNameLength);
  claim_text(strip.lot, plan::kMaxTextLength);
  claim(!strip.samples.empty() || (strip.width.given && strip.thickness.given),
        "a strip without a linear density", strip.name);
  for (const plan::Sample& sample : strip.samples) {
    claim(sample.length > Length{} && sample.mass > Mass{} && sample.length.finite() &&
              sample.mass.finite(),
          "a sample of nothing", strip.name);
  }
  for (const plan::Piece& piece : strip.pieces) {
    claim(piece.length || piece.mass, "a piece without a size", strip.name);
    claim(!piece.length || (*piece.length > Length{} && piece.length->finite()),
          "a piece's length");
    claim(!piece.mass || (*piece.mass > Mass{} && piece.mass->finite()), "a piece's mass");
  }
  claim(strip.density.value > Density{} && strip.density.value.finite(), "a strip's density");
  claim(strip.talc.value.value >= Share{} && strip.talc.value.value < Share::ratio(1), "talc");
}

template <class T>
void claim_index(const std::optional<std::size_t>& index, const std::vector<T>& of) {
  claim(!index || *index < of.size(), "a reference to what is not there");
}

void claim_motors(const plan::MotorGroup& group, const plan::Plan& plan) {
  claim(is_stem(group.stem.value), "a stem that is none", group.stem.value);
  claim(group.first.value >= 1 && group.count.value >= 1 &&
            group.first.value + group.count.value - 1 <= kMotorNumberMax,
        "a motor's number out of its bounds", group.stem.value);
  claim(group.strip < plan.strips.size(), "a strip that is not there");
  claim_index(group.rule, plan.rules);
  claim_index(group.rings, plan.rings);
  claim_index(group.lubricant, plan.lubricants);
  claim_index(group.adhesive, plan.adhesives);
  claim_index(group.recipe, plan.recipes);
  claim_text(group.owner, plan::kMaxTextLength);
  claim_text(group.purpose, plan::kMaxTextLength);
  claim(group.strands.value >= 2 && group.strands.value % 2 == 0, "an odd number of strands");
  claim(group.choosing || group.mass_is_limit || group.mass.given || group.loop.given,
        "a motor without a size");
  claim(!group.mass_is_limit || group.rule, "a limit without a rule");
  claim_between(group.mass, Mass{}, Mass::kg(1), "a motor's mass");
  claim_between(group.loop, Length::mm(5), Length::m(20), "a motor's loop");
  claim_between(group.part, 0.0, 1.0, "a motor's part");
}

void claim_plan(const plan::Plan& plan) {
  claim_text(plan.title, plan::kMaxTextLength);
  claim(!plan.date.given || is_valid(plan.date.value), "a date that is none");
  claim(plan.bench.scale_step.value > Mass{} && plan.bench.scale_step.value.finite(), "a scale");
  claim(plan.bench.ruler_step.value > Length{}, "a ruler");
  claim(plan.bench.confidence.value >= Share::percent(50) &&
            plan.bench.confidence.value <= Share::percent(99.99),
        "a confidence out of its bounds");
  claim(!plan.link.given || plan.link.value.find("{id}") != std::string::npos, "a link without id");
  claim(!plan.strips.empty() && !plan.motors.empty(), "a plan without strip or motors");
  for (const plan::Strip& strip : plan.strips) {
    claim_strip(strip);
  }
  int motors = 0;
  for (const plan::MotorGroup& group : plan.motors) {
    claim_motors(group, plan);
    motors += group.count.value;
  }
  claim(motors <= plan::kMaxMotors, "too many motors");
  for (const plan::Recipe& recipe : plan.recipes) {
    for (const plan::RecipeStep& step : recipe.steps) {
      claim(!step.stretch || (*step.stretch >= 1 && *step.stretch <= 8), "a stretch out of bounds");
      claim(step.repeat >= 1, "a step that is not done");
    }
  }
}

/// Places are in the text; every child of the tree is another node, and no node is lost.
void claim_tree(const plan::Tree& tree, std::string_view text) {
  std::size_t children = 0;
  for (const plan::Node& node : tree.nodes) {
    children += node.items.size() + node.members.size();
    for (const std::size_t item : node.items) {
      claim(item < tree.nodes.size(), "a child that is not there");
    }
    for (const plan::Member& member : node.members) {
      claim(member.node < tree.nodes.size(), "a member that is not there");
    }
    claim(node.place.line >= 0 && static_cast<std::size_t>(node.place.line) <= text.size() + 1,
          "a place behind the end");
  }
  claim(children + 1 == tree.nodes.size(), "a tree with a node too many or too few");
}

}  // namespace

void plan(std::string_view input) {
  std::string_view rest = input;
  const std::string text = next_text(rest);
  const std::string shelf = next_text(rest);
  const std::string from_templates = next_text(rest);
  const auto tree = plan::parse_tree(text, std::string(kPlan));
  claim_result(tree, text.size());
  if (tree) {
    claim_tree(*tree, text);
  }
  const plan::Sources sources = sources_of(shelf, from_templates);
  const auto read = plan::read_plan(text, std::string(kPlan), sources);
  // A shelf or a template may be taken many times.
  claim_result(read, 40 * input.size());
  claim(!read || tree.ok(), "a plan of a text that is no TOML");
  if (read) {
    claim(!has_errors(read.diagnostics()), "a plan and an error");
    claim_plan(*read);
  }
  const auto again = plan::read_plan(text, std::string(kPlan), sources);
  claim(render(again.diagnostics()) == render(read.diagnostics()), "two readings that differ");
}

}  // namespace loopledger::fuzz
