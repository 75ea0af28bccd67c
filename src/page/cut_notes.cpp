// SPDX-License-Identifier: MIT
//
// What the cut sheet says in words: rules and what they count, how dry is dry, what to make of a
// motor that came out too light, and where the work can hurt.
#include <fmt/format.h>

#include "page/cut_sections.h"
#include "page/figures_text.h"

namespace loopledger::page {
namespace {

/// Other motors of the plan that a light one of `kind` could still become.
std::string could_become(const Kind& kind, const std::vector<Kind>& kinds,
                         const calc::Batch& batch) {
  std::string text;
  for (const Kind& lesser : kinds) {
    const records::Planned& p = *lesser.planned;
    if (p.strip == kind.planned->strip && p.strands == kind.planned->strands &&
        p.slit == kind.planned->slit && p.stays < kind.planned->stays &&
        p.windows.of(Stage::washed).low && p.windows.of(Stage::washed).high) {
      text += fmt::format("{}{} ({}–{} g washed)", text.empty() ? "" : ", or ",
                          id_list(batch, lesser.motors),
                          grams(*p.windows.of(Stage::washed).low, p.scale_step),
                          grams(*p.windows.of(Stage::washed).high, p.scale_step));
    }
  }
  return text;
}

}  // namespace

void draw_rules(Sheet& sheet, const plan::Plan& plan) {
  sheet.canvas().set_place("the rules");
  bool first = true;
  for (std::size_t i = 0; i < plan.rules.size(); ++i) {
    if (!is_used(plan, &plan::MotorGroup::rule, i)) {
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
        rounded(rule.limit.value.in_g(), 6), counted(rule.counts.value),
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

void draw_advice(Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  sheet.canvas().set_place("the advice");
  sheet.heading("At the bench", 20);
  sheet.item(
      "Dry?",
      fmt::format("A washed motor is dry when two readings ten minutes apart differ by at "
                  "most one scale step ({}); water on it weighs today and is gone tomorrow (common "
                  "practice, no source).",
                  milligrams(plan.bench.scale_step.value)));
  const double y = sheet.y() + 4.5;
  double x = sheet.x() + 30;
  for (const char* word : {"in the air since", "reads", "g at", "and", "g at"}) {
    x += sheet.canvas().text(x, y, word, {.size_pt = 9}) + 1.5;
    sheet.canvas().blank(x, y, 19);
    x += 20.5;
  }
  sheet.down(7);
  sheet.item("Over?",
             "Snip by the strip above the table, weigh again. Snip washed strip, before "
             "it is tied; after that only tails can go.");
  sheet.item(
      "Too light?",
      "Rubber can't be put back. A motor under the lower end is still within its limit; each "
      "milligram that is missing is that much less energy. Or keep it as the lot's test "
      "motor: wind it until it breaks and log the turns and torque, which makes the "
      "estimates of this lot better.");
  const std::vector<Kind> kinds = kinds_of(plan, batch);
  for (const Kind& kind : kinds) {
    const std::string other_use = could_become(kind, kinds, batch);
    if (!other_use.empty()) {
      sheet.item("", fmt::format("{} can be trimmed down to become one of {}.",
                                 id_list(batch, kind.motors), other_use));
    }
  }
}

void draw_cautions(Sheet& sheet) {
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

}  // namespace loopledger::page
