// SPDX-License-Identifier: MIT
//
// The head of the cut sheet: what to fetch, and checks of the scale.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/text.h"
#include "sheets/cut_sections.h"
#include "sheets/figures_text.h"

namespace loopledger::sheets {
namespace {

struct Check {
  std::string text;
  std::string hint;
};

constexpr double kCheckInset = 2;
constexpr double kCheckBlank = 9;  // of a check: where the reading is written
constexpr page::Style kCheckText{
    .size_pt = 11, .face = page::Face::sheet_bold, .smallest_pt = 11, .max_lines = 12};
constexpr page::Style kCheckHint{.size_pt = 8, .smallest_pt = 8, .max_lines = 4};

double check_height(page::Canvas& canvas, const Check& check, double w) {
  return kCheckInset + canvas.height_of(w - 2 * kCheckInset, check.text, kCheckText) + kCheckBlank +
         canvas.height_of(w - 2 * kCheckInset, check.hint, kCheckHint) + 1;
}

void draw_check(page::Canvas& canvas, const Check& check, double x, double y, double w, double h) {
  canvas.box({.x = x, .y = y, .w = w, .h = h, .line_width = 0.3});
  const double in = w - 2 * kCheckInset;
  canvas.fit(x + kCheckInset, y + kCheckInset, in, check.text, kCheckText);
  const double hint = y + h - 1 - canvas.height_of(in, check.hint, kCheckHint);
  canvas.blank(x + kCheckInset, hint - 1.8, w - 12);
  canvas.text(x + w - 8, hint - 1.8, "g", {.size_pt = 11, .face = page::Face::sheet_bold});
  canvas.fit(x + kCheckInset, hint, in, check.hint, kCheckHint);
}

/// What one strip is needed for.
struct Need {
  std::size_t motors = 0;
  Length length;
};

std::string pieces_text(const plan::Strip& strip, std::size_t index, const calc::Batch& batch,
                        Units units) {
  std::string text;
  for (const calc::PieceCuts& cuts : batch.cutting.pieces) {
    if (cuts.strip == index) {
      text += fmt::format("{}{} ({})", text.empty() ? "" : ", ", strip.pieces[cuts.piece].tag,
                          shown(cuts.length, units));
    }
  }
  return text;
}

void fetch_strips(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  std::vector<Need> needs(plan.strips.size());
  for (const calc::MotorFigures& motor : batch.motors) {
    Need& need = needs[plan.motors[motor.group].strip];
    ++need.motors;
    need.length += cut_length(motor.planned.cut, plan.units);
  }
  for (std::size_t i = 0; i < plan.strips.size(); ++i) {
    if (needs[i].motors == 0) {
      continue;
    }
    const plan::Strip& strip = plan.strips[i];
    std::string text = "strip " + strip.name;
    if (!strip.lot.empty() && strip.lot != strip.name) {
      text += ", lot " + strip.lot;
    }
    if (strip.width.given) {
      text += ", " + strip_width(strip.width.value, plan.units) + " wide";
    }
    const std::string pieces = pieces_text(strip, i, batch, plan.units);
    text += pieces.empty()
                ? fmt::format(": {} for {}", both(needs[i].length, plan.units),
                              how_many(needs[i].motors, "motor"))
                : fmt::format(": {} {}",
                              pieces.find(", ") == std::string::npos ? "piece" : "pieces", pieces);
    sheet.tick_item(text);
  }
}

void fetch_rest(page::Sheet& sheet, const calc::Batch& batch) {
  std::map<std::string, int> rings;
  std::set<std::string> oils;
  std::set<std::string> glues;
  for (const calc::MotorFigures& motor : batch.motors) {
    const records::Planned& planned = motor.planned;
    if (!planned.ring.empty()) {
      rings[planned.ring] += planned.ring_count;
    }
    if (!planned.lubricant.empty()) {
      oils.insert("lubricant " + planned.lubricant);
    }
    if (!planned.adhesive.empty()) {
      glues.insert("adhesive " + planned.adhesive);
    }
  }
  std::vector<std::string> things;
  things.reserve(rings.size() + oils.size() + glues.size());
  for (const auto& [name, count] : rings) {
    things.push_back(fmt::format("{} rings “{}”", count, name));
  }
  things.insert(things.end(), oils.begin(), oils.end());
  things.insert(things.end(), glues.begin(), glues.end());
  if (!things.empty()) {
    sheet.tick_item(fmt::format("{}", fmt::join(things, "; ")));
  }
  sheet.tick_item(
      fmt::format("scale and a 1 g check weight; ruler; blade and board; water and towel; {} and "
                  "labels; pen; eye protection",
                  how_many(batch.motors.size(), "bag")));
}

}  // namespace

void draw_bench_checks(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  sheet.canvas().set_place("the checks of the cut sheet");
  std::vector<Check> checks{
      {"Check weight: 1 g reads",
       fmt::format("scale step {}, error at most {}", milligrams(plan.bench.scale_step.value),
                   milligrams(plan.bench.scale_error.value))}};
  for (std::size_t i = 0; i < plan.rings.size(); ++i) {
    const plan::Rings& rings = plan.rings[i];
    if (!is_used(plan, batch, &plan::MotorGroup::rings, i)) {
      continue;
    }
    checks.push_back(
        {fmt::format("{} ring{} “{}” read{}", rings.weighed.value,
                     rings.weighed.value == 1 ? "" : "s", rings.name,
                     rings.weighed.value == 1 ? "s" : ""),
         fmt::format("planned {}: {} on each motor", milligrams(rings.mass.value),
                     milligrams(rings.mass.value *
                                (static_cast<double>(rings.each.value) / rings.weighed.value)))});
  }
  constexpr double kGap = 3;
  constexpr std::size_t kAcross = 3;
  const double w = (sheet.width() - (kAcross - 1) * kGap) / kAcross;
  sheet.down(kGap);
  for (std::size_t first = 0; first < checks.size(); first += kAcross) {
    const std::size_t here = std::min(kAcross, checks.size() - first);
    double height = 0;
    for (std::size_t i = first; i < first + here; ++i) {
      height = std::max(height, check_height(sheet.canvas(), checks[i], w));
    }
    sheet.room(height + kGap);
    for (std::size_t i = 0; i < here; ++i) {
      draw_check(sheet.canvas(), checks[first + i], sheet.x() + static_cast<double>(i) * (w + kGap),
                 sheet.y(), w, height);
    }
    sheet.down(height + kGap);
  }
}

void draw_fetch(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  sheet.canvas().set_place("the list of what to fetch");
  sheet.paragraph(
      "Before you begin: the cautions for eyes, blade, glue and latex are near the end.",
      {.size_pt = 9});
  sheet.heading("Fetch");
  fetch_strips(sheet, plan, batch);
  fetch_rest(sheet, batch);
}

}  // namespace loopledger::sheets
