// SPDX-License-Identifier: MIT
//
// The mass budget as a picture: what counts against the limit and what is on the scale, drawn to
// scale with most of the rubber left out, so that milligrams can be seen.
#include <fmt/format.h>

#include <algorithm>

#include "calc/turns_torque.h"
#include "sheets/cut_sections.h"
#include "sheets/figures_text.h"

namespace loopledger::sheets {
namespace {

constexpr double kShareHeight = 6.5;
constexpr double kLabelWidth = 30;
constexpr double kAxisRight = 12;  // beside the bars

struct Part {
  std::string name;
  Mass mass;
  double grey = 1;
  bool counts = false;
};

/// Rubber first, then what is put on it. Lubricant as it is on the scale when finished.
std::vector<Part> parts_of(const records::Planned& p, bool counted_only) {
  const bool all = !p.rule;
  const Counts counts = p.rule ? p.rule->counts : Counts{};
  const Uncertain<Share>& oil =
      counted_only && p.rule && p.rule->weighed == Weighed::rested ? p.left : p.uptake;
  std::vector<Part> parts{{.name = "rubber", .mass = p.aim, .grey = 0.88, .counts = true}};
  const auto add = [&](const char* name, Mass mass, double grey, bool is_counted) {
    if (mass > Mass{} && (!counted_only || is_counted || all)) {
      parts.push_back({.name = name, .mass = mass, .grey = grey, .counts = is_counted});
    }
  };
  add("lubricant", p.aim * oil.value, 0.65, counts.lubricant);
  add("rings", p.rings.value, 0.4, counts.rings);
  add("adhesive", p.adhesive_mass.value, 0.0, counts.adhesive);
  return parts;
}

Mass sum(const std::vector<Part>& parts) {
  Mass total;
  for (const Part& part : parts) {
    total += part.mass;
  }
  return total;
}

/// From mass to millimetres; begins shortly under the rubber's mass.
struct Axis {
  double x = 0;
  double w = 0;
  Mass from;
  Mass to;
  [[nodiscard]] double at(Mass m) const { return x + w * ((m - from) / (to - from)); }
};

void draw_break(page::Canvas& canvas, double x, double y) {
  for (const double shift : {0.0, 1.6}) {
    canvas.line(x + 3 + shift, y + kShareHeight + 0.6, x + 4.2 + shift, y - 0.6, 0.3);
  }
}

void draw_budget_bar(page::Canvas& canvas, const std::vector<Part>& parts, const Axis& axis,
                     double y) {
  Mass at;
  for (const Part& part : parts) {
    const double from = std::max(axis.x, axis.at(at));
    at += part.mass;
    const double to = axis.at(at);
    canvas.box({.x = from,
                .y = y,
                .w = std::max(0.1, to - from),
                .h = kShareHeight,
                .line_width = 0.2,
                .fill_grey = part.grey});
    const page::Style name{
        .size_pt = 8, .align = page::Align::centre, .grey = part.grey < 0.5 ? 1.0 : 0.0};
    if (canvas.width_of(part.name, name) < to - from - 1) {
      canvas.text((from + to) / 2, y + (kShareHeight + page::cap_height(8)) / 2, part.name, name);
    }
  }
  if (axis.from > Mass{}) {
    draw_break(canvas, axis.x, y);
  }
}

void draw_guard(page::Canvas& canvas, const Axis& axis, Mass limit, Mass guard, double y) {
  const double from = axis.at(limit - guard);
  const double to = axis.at(limit);
  constexpr double kHatch = 1;
  const int strokes = static_cast<int>((to - from) / kHatch);
  for (int i = 0; i < strokes; ++i) {
    const double x = from + (i + 0.5) * kHatch;
    canvas.line(x, y, x, y + kShareHeight, 0.12, 0.3);
  }
  canvas.box({.x = from, .y = y, .w = to - from, .h = kShareHeight, .line_width = 0.15});
}

void draw_limit(page::Canvas& canvas, const records::Planned& p, const Axis& axis, double y,
                double height) {
  const double x = axis.at(p.rule->limit);
  canvas.line(x, y - 1.5, x, y + height, 0.7);
  const std::string text = "limit " + rounded(p.rule->limit.in_g(), 6) + " g";
  const page::Style style{
      .size_pt = 9, .face = page::Face::sheet_bold, .align = page::Align::centre};
  const double most = axis.x + axis.w + kAxisRight - canvas.width_of(text, style) / 2;
  canvas.text(std::min(x, most), y - 2.5, text, style);
}

std::string amounts(const records::Planned& p) {
  std::string text;
  for (const Part& part : parts_of(p, false)) {
    const bool rubber = part.name == "rubber";
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", part.name,
                        rubber ? fixed(part.mass.in_g(), gram_decimals(p.scale_step) + 1) + " g"
                               : milligrams(part.mass));
    if (part.name == "lubricant") {
      text += fmt::format(
          " (estimate {}–{} mg, 95 %)",
          rounded(
              std::max((p.aim * (p.uptake.value - p.uptake.u * calc::coverage_95())).in_mg(), 0.0),
              2),
          rounded((p.aim * (p.uptake.value + p.uptake.u * calc::coverage_95())).in_mg(), 2));
    }
    if (p.rule && !part.counts) {
      text += " (not counted)";
    }
  }
  return text;
}

std::string guards(const records::Planned& p) {
  std::string text;
  for (const auto& [stage, name] :
       {std::pair{Stage::washed, "washed"}, std::pair{Stage::tied, "tied"},
        std::pair{Stage::finished, "finished"}}) {
    if (p.windows.of(stage).guard) {
      text += fmt::format("{}{} {}", text.empty() ? "" : ", ", name,
                          milligrams(*p.windows.of(stage).guard));
    }
  }
  return text;
}

/// Motors whose picture and words are the same.
struct Budget {
  const records::Planned* planned = nullptr;
  std::string text;
  std::vector<std::size_t> motors;
};

bool is_limited(const records::Planned& p) { return p.rule.has_value() && !p.part; }

std::string words(const records::Planned& p) {
  const bool guarded = is_limited(p) && !guards(p).empty();
  return fmt::format("{}.{}", amounts(p),
                     guarded ? " Guard (hatched: as washed): " + guards(p) + "." : "");
}

std::vector<Budget> budgets_of(const plan::Plan& plan, const calc::Batch& batch) {
  std::vector<Budget> all;
  for (const Kind& kind : kinds_of(plan, batch)) {
    const records::Planned& p = *kind.planned;
    std::string text = words(p);
    auto found = std::find_if(all.begin(), all.end(), [&](const Budget& b) {
      return b.text == text && b.planned->rule == p.rule && b.planned->part == p.part;
    });
    if (found == all.end()) {
      found = all.insert(all.end(), {.planned = &p, .text = std::move(text), .motors = {}});
    }
    found->motors.insert(found->motors.end(), kind.motors.begin(), kind.motors.end());
  }
  for (Budget& budget : all) {
    std::sort(budget.motors.begin(), budget.motors.end());
  }
  return all;
}

Axis axis_for(const records::Planned& p, const page::Sheet& sheet) {
  const Mass on_scale = sum(parts_of(p, false));
  const Mass most = is_limited(p) ? std::max(on_scale, p.rule->limit) : on_scale;
  // Rubber takes a quarter of the bar, or more where there is little else.
  const Mass shown_part = std::max((most - p.aim) * 1.34, p.scale_step * 20);
  return {.x = sheet.x() + kLabelWidth,
          .w = sheet.width() - kLabelWidth - kAxisRight,
          .from = std::max(Mass{}, most - shown_part),
          .to = most};
}

void draw_budget_bars(page::Sheet& sheet, const records::Planned& p) {
  page::Canvas& canvas = sheet.canvas();
  const Axis axis = axis_for(p, sheet);
  const bool limited = is_limited(p);
  sheet.down(limited ? 5 : 0);
  const double top = sheet.y();
  if (limited) {
    canvas.fit(sheet.x(), top + 2, kLabelWidth - 2, "what counts", {.size_pt = 8.5});
    draw_budget_bar(canvas, parts_of(p, true), axis, top);
    if (p.windows.of(Stage::washed).guard) {
      draw_guard(canvas, axis, p.rule->limit, *p.windows.of(Stage::washed).guard, top);
    }
    sheet.down(kShareHeight + 2);
  }
  canvas.fit(sheet.x(), sheet.y() + 2, kLabelWidth - 2, "on the scale", {.size_pt = 8.5});
  draw_budget_bar(canvas, parts_of(p, false), axis, sheet.y());
  sheet.down(kShareHeight + 2);
  if (limited) {
    draw_limit(canvas, p, axis, top, sheet.y() - top - 1);
  }
}

}  // namespace

void draw_budgets(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  sheet.canvas().set_place("the mass budget");
  sheet.bookmark_next("Mass budget");
  sheet.heading("Mass budget", 45);
  constexpr page::Style kNames{.size_pt = 9, .face = page::Face::sheet_bold};
  constexpr page::Style kWords{.size_pt = 8.5};
  for (const Budget& budget : budgets_of(plan, batch)) {
    const std::string ids = id_list(batch, budget.motors);
    const auto lines_high = [&](const std::string& text, const page::Style& style) {
      return static_cast<double>(sheet.canvas().lines_of(sheet.width(), text, style).size()) *
             page::line_height(style.size_pt);
    };
    const double bars = is_limited(*budget.planned) ? 5 + 2 * (kShareHeight + 2) : kShareHeight + 2;
    sheet.room(std::min(lines_high(ids, kNames) + bars + lines_high(budget.text, kWords) + 2,
                        sheet.full_height() / 2));
    sheet.paragraph(ids, kNames);
    sheet.room(bars);
    draw_budget_bars(sheet, *budget.planned);
    sheet.paragraph(budget.text, kWords);
    sheet.down(1);
  }
}

}  // namespace loopledger::sheets
