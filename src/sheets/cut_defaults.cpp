// SPDX-License-Identifier: MIT
//
// Every value that the plan did not give and that the figures rest on.
#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "calc/linear_density.h"
#include "sheets/cut_sections.h"
#include "sheets/figures_text.h"

namespace loopledger::sheets {
namespace {

/// Collects "key value" for what was not given.
class Defaults {
 public:
  template <class T>
  void add(const plan::Placed<T>& value, const char* key, const std::string& text) {
    if (!value.given) {
      all_.push_back(fmt::format("{} {}", key, text));
    }
  }
  void always(std::string text) { all_.push_back(std::move(text)); }
  [[nodiscard]] std::string text() const { return fmt::format("{}", fmt::join(all_, "; ")); }
  void print(page::Sheet& sheet, const std::string& label) const {
    if (!all_.empty()) {
      sheet.item(label, text());
    }
  }

 private:
  std::vector<std::string> all_;
};

void bench_defaults(page::Sheet& sheet, const plan::Plan& plan) {
  Defaults bench;
  bench.add(plan.paper, "paper", plan.paper.value);
  if (!plan.units_given) {
    bench.always("units metric");
  }
  bench.add(plan.bench.scale_error, "scale_error", milligrams(plan.bench.scale_error.value));
  bench.add(plan.bench.ruler_step, "ruler_step", exact(plan.bench.ruler_step.value));
  bench.add(plan.bench.confidence, "confidence", exact(plan.bench.confidence.value));
  bench.add(plan.bench.winder_ratio, "winder_ratio", rounded(plan.bench.winder_ratio.value, 6));
  bench.add(plan.labels, "labels", "of our own, on the paper");
  bench.print(sheet, "bench");
}

/// Also the factors that the motors were planned with, where the shelf gave none.
void strip_defaults(page::Sheet& sheet, const plan::Strip& strip, const records::Planned& p) {
  Defaults defaults;
  defaults.add(strip.density, "density", exact(strip.density.value));
  defaults.add(strip.talc, "talc", share(strip.talc.value));
  if (strip.samples.empty()) {
    defaults.always(fmt::format("linear density width × thickness × density ± {} %",
                                rounded(calc::kSectionUncertainty * 100, 2)));
  } else {
    defaults.add(strip.samples_washed, "samples_washed",
                 strip.samples_washed.value ? "true" : "false");
  }
  if (!strip.pieces.empty()) {
    defaults.add(strip.keep, "keep", "the strip's shortest motor");
    defaults.add(strip.ends, "ends", exact(strip.ends.value));
  }
  defaults.add(
      strip.turns_factor, "turns_factor",
      fmt::format("{} ± {} %", rounded(p.turns_factor, 4), rounded(p.turns_factor_u * 100, 2)));
  defaults.add(
      strip.torque_factor, "torque_factor",
      fmt::format("{} ± {} %", exact(p.torque_factor), rounded(p.torque_factor_u * 100, 2)));
  // Given without how sure they are.
  if (strip.turns_factor.given && strip.turns_factor.value.u == 0) {
    defaults.always(fmt::format("turns_factor ± {} %", rounded(p.turns_factor_u * 100, 2)));
  }
  if (strip.torque_factor.given && strip.torque_factor.value.u == Pressure{}) {
    defaults.always(fmt::format("torque_factor ± {} %", rounded(p.torque_factor_u * 100, 2)));
  }
  defaults.print(sheet, strip.name);
}

/// Once for each strip that a motor is made of.
void all_strip_defaults(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  std::vector<bool> said(plan.strips.size(), false);
  for (const calc::MotorFigures& motor : batch.motors) {
    const std::size_t index = plan.motors[motor.group].strip;
    if (!said[index]) {
      strip_defaults(sheet, plan.strips[index], motor.planned);
      said[index] = true;
    }
  }
}

std::string group_defaults(const plan::Plan& plan, const plan::MotorGroup& group,
                           const records::Planned& planned) {
  Defaults defaults;
  defaults.add(group.count, "count", fmt::format("{}", group.count.value));
  defaults.add(group.first, "first", fmt::format("{}", group.first.value));
  defaults.add(group.strands, "strands", fmt::format("{}", group.strands.value));
  defaults.add(group.knot, "knot", shown(group.knot.value, plan.units));
  defaults.add(group.tails, "tails", shown(group.tails.value, plan.units));
  defaults.add(group.allowance, "allowance", shown(planned.allowance, plan.units));
  defaults.add(group.window, "window", milligrams(group.window.value));
  return defaults.text();
}

/// Groups with the same defaults share a line.
void all_group_defaults(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  std::vector<std::pair<std::string, std::vector<std::size_t>>> lines;
  for (std::size_t i = 0; i < batch.motors.size(); ++i) {
    const std::string text =
        group_defaults(plan, plan.motors[batch.motors[i].group], batch.motors[i].planned);
    auto found = std::find_if(lines.begin(), lines.end(),
                              [&](const auto& line) { return line.first == text; });
    if (found == lines.end()) {
      found = lines.insert(lines.end(), {text, {}});
    }
    found->second.push_back(i);
  }
  for (const auto& [text, motors] : lines) {
    if (!text.empty()) {
      sheet.item("motors", fmt::format("{}: {}", id_list(batch, motors), text));
    }
  }
}

}  // namespace

void draw_defaults(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  sheet.canvas().set_place("the defaults");
  sheet.heading("Defaults used, because the plan does not say", 12);
  bench_defaults(sheet, plan);
  for (std::size_t i = 0; i < plan.rules.size(); ++i) {
    if (is_used(plan, batch, &plan::MotorGroup::rule, i)) {
      const plan::Rule& rule = plan.rules[i];
      Defaults defaults;
      defaults.add(rule.weighed, "weighed", std::string(word(rule.weighed.value)));
      defaults.add(rule.official_error, "official_error", milligrams(rule.official_error.value));
      defaults.print(sheet, "rule " + rule.name);
    }
  }
  all_strip_defaults(sheet, plan, batch);
  for (std::size_t i = 0; i < plan.rings.size(); ++i) {
    if (is_used(plan, batch, &plan::MotorGroup::rings, i)) {
      const plan::Rings& rings = plan.rings[i];
      Defaults defaults;
      defaults.add(rings.weighed, "weighed", fmt::format("{}", rings.weighed.value));
      defaults.add(rings.spread, "spread", milligrams(rings.spread.value));
      defaults.add(rings.each, "each", fmt::format("{}", rings.each.value));
      defaults.print(sheet, "rings " + rings.name);
    }
  }
  for (std::size_t i = 0; i < plan.lubricants.size(); ++i) {
    if (is_used(plan, batch, &plan::MotorGroup::lubricant, i)) {
      const plan::Lubricant& oil = plan.lubricants[i];
      Defaults defaults;
      defaults.add(oil.left, "left", "as uptake, " + share(oil.left.value));
      defaults.print(sheet, oil.name);
    }
  }
  all_group_defaults(sheet, plan, batch);
}

}  // namespace loopledger::sheets
