// SPDX-License-Identifier: MIT
//
// What the cut sheet says in words: rules and what they count, how dry is dry, what to make of a
// motor that came out too light, and where the work can hurt.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "calc/weigh.h"
#include "sheets/cut_sections.h"
#include "sheets/figures_text.h"

namespace loopledger::sheets {
namespace {

/// Whether what is cut for one is as wide as the other needs it.
bool same_strip(const records::Planned& a, const records::Planned& b) {
  constexpr double kSame = 1e-6;
  return a.strip == b.strip && a.slit == b.slit &&
         (!a.slit || std::abs(*a.width / *b.width - 1) < kSame);
}

/// The motors of the plan that a light one of `kind` could still become with the least rubber lost;
/// empty when there are none.
std::string could_become(const Kind& kind, const std::vector<Kind>& kinds,
                         const calc::Batch& batch) {
  const records::Planned& heavy = *kind.planned;
  const Kind* best = nullptr;
  for (const Kind& lesser : kinds) {
    const records::Planned& p = *lesser.planned;
    const records::Window& washed = p.windows.of(Stage::washed);
    if (lesser.group != kind.group && p.strands == heavy.strands && same_strip(p, heavy) &&
        p.stays < heavy.stays && p.aim < heavy.aim && washed.low && washed.high &&
        (best == nullptr || best->planned->aim < p.aim)) {
      best = &lesser;
    }
  }
  if (best == nullptr) {
    return {};
  }
  const records::Window washed = calc::scale_window(*best->planned, Stage::washed);
  return fmt::format("{} ({}–{} g washed{})", id_list(batch, best->motors),
                     grams(*washed.low, best->planned->scale_step),
                     grams(*washed.high, best->planned->scale_step),
                     best->planned->tails > Length{} ? ", tails on" : "");
}

/// Which motors could become which, each pair of groups once.
std::vector<std::string> second_uses(const plan::Plan& plan, const calc::Batch& batch) {
  std::map<std::string, std::vector<std::size_t>> by_use;
  const std::vector<Kind> kinds = kinds_of(plan, batch);
  for (const Kind& kind : kinds) {
    if (const std::string use = could_become(kind, kinds, batch); !use.empty()) {
      by_use[use].insert(by_use[use].end(), kind.motors.begin(), kind.motors.end());
    }
  }
  std::vector<std::string> all;
  for (auto& [use, motors] : by_use) {
    std::sort(motors.begin(), motors.end());
    all.push_back(
        fmt::format("{} can be trimmed down to become one of {}.", id_list(batch, motors), use));
  }
  return all;
}

}  // namespace

void draw_rules(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  sheet.canvas().set_place("the rules");
  bool first = true;
  for (std::size_t i = 0; i < plan.rules.size(); ++i) {
    if (!is_used(plan, batch, &plan::MotorGroup::rule, i)) {
      continue;
    }
    if (first) {
      sheet.heading("Rules", 12);
      first = false;
    }
    const plan::Rule& rule = plan.rules[i];
    std::string text = fmt::format(
        "at most {} g; counted: {}; weighed {}. Windows keep a motor within it with {} when the "
        "event's scale errs by up to {}.",
        rounded(rule.limit.value.in_g(), 6), listed(rule.counts.value),
        rule.weighed.value == Weighed::fresh ? "with lubricant just rubbed in"
                                             : "with what is left of the lubricant later",
        exact(plan.bench.confidence.value), milligrams(rule.official_error.value));
    if (!rule.source.empty()) {
      text += " Source: " + rule.source + ".";
    }
    if (!rule.check.empty()) {
      text += " Check: " + rule.check + ".";
    }
    sheet.item(rule.name, text);
  }
}

void draw_advice(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  sheet.canvas().set_place("the advice");
  sheet.heading("Wash, dry, weigh", 26);
  sheet.item(
      "Dry?",
      fmt::format("A washed motor is dry when two readings ten minutes apart differ by at "
                  "most one scale step ({}); water on it weighs today and is gone tomorrow (common "
                  "practice, no source).",
                  milligrams(plan.bench.scale_step.value)));
  sheet.room(7);
  const double y = sheet.y() + 4.5;
  double x = sheet.x() + 30;
  for (const char* word : {"in the air since", "reads", "g at", "and", "g at"}) {
    x += sheet.canvas().text(x, y, word, {.size_pt = 9}) + 1.5;
    sheet.canvas().blank(x, y, 19);
    x += 20.5;
  }
  sheet.down(7);
  sheet.item("Over?",
             "Snip by the strip “mg over” above the tables, weigh again. Snip washed strip, before "
             "it is tied: a knot can't be moved.");
  if (std::ranges::any_of(batch.motors, [](const calc::MotorFigures& motor) {
        return motor.planned.tails > Length{};
      })) {
    sheet.item("Tails?",
               "Weigh washed strip with its tails on: windows with “tails on” hold them. They go "
               "after tying, before it is weighed tied.");
  }
  const bool limited = std::ranges::any_of(
      batch.motors, [](const calc::MotorFigures& motor) { return motor.planned.rule.has_value(); });
  sheet.item(
      "Too light?",
      fmt::format(
          "Rubber can't be put back. {}ach milligram that is missing is that much less energy. Or "
          "keep it as the lot's test motor: wind it until it breaks and log the turns and torque, "
          "which makes the estimates of this lot better.",
          limited ? "Under the lower end a motor that has a limit is still within it; e" : "E"));
  for (const std::string& use : second_uses(plan, batch)) {
    sheet.item("", use);
  }
}

void draw_cautions(page::Sheet& sheet) {
  sheet.canvas().set_place("the cautions");
  sheet.heading("Cautions", 20);
  // [cautions]
  sheet.item("Eyes",
             "Wear eye protection. Stretched or wound rubber that lets go whips, and a "
             "bursting motor throws pieces and hooks.");
  sheet.item("Blade", "Cut away from fingers, on a board; cover the blade when it lies down.");
  sheet.item("Glue",
             "Cyanoacrylate irritates skin, eyes and airways: fresh air, no drops on "
             "fingers. Never pull bonded skin apart or force a bonded eye open: get "
             "medical help.");
  sheet.item("Latex",
             "Natural rubber, its dust and its powder can cause rashes, trouble with "
             "breathing and, rarely, shock. Whoever is allergic does not handle it, "
             "and does not sit beside the washing.");
  sheet.item("The event", "Its own rules and its officials decide, not this sheet.");
}

}  // namespace loopledger::sheets
