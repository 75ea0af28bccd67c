// SPDX-License-Identifier: MIT
#include "page/break_in_steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "calc/break_in.h"
#include "page/figures_text.h"

namespace loopledger::page {
namespace {

constexpr double kHeadHeight = 5.5;
constexpr double kStepHeight = 8.5;
constexpr double kNoteHeight = 6;
constexpr std::array kStepColumns{0.05, 0.37, 0.29, 0.12, 0.17};  // step, do, stop at, hold, rest

Style figure() {
  return {.size_pt = 12, .face = Face::sheet_bold, .smallest_pt = 7, .max_lines = 2};
}

void draw_cells(Sheet& sheet, const std::array<std::string, kStepColumns.size()>& texts,
                double height, const Style& style, double fill) {
  Canvas& canvas = sheet.canvas();
  canvas.box({.x = sheet.x(),
              .y = sheet.y(),
              .w = sheet.width(),
              .h = height,
              .line_width = 0.3,
              .fill_grey = fill});
  double x = sheet.x();
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const double w = kStepColumns[i] * sheet.width();
    canvas.fit_in({.x = x + 1.2, .y = sheet.y(), .w = w - 2, .h = height}, texts[i], style);
    x += w;
  }
  sheet.down(height);
}

/// Turns let the crank be counted; without a winder ratio both are the same number.
std::string what_to_do(const records::Planned& p, const records::BreakInStep& step, Units units) {
  std::string text;
  if (step.stretch) {
    text = "stretch to " + both(*step.stretch, units);
  }
  if (step.turns) {
    text += fmt::format("{}wind {} turns", text.empty() ? "" : ", then ",
                        fixed(step.turns->count(), 0));
    if (step.cranks && *step.cranks != std::lround(step.turns->count())) {
      text += fmt::format(" = {} cranks", *step.cranks);
    }
  } else if (step.stop_torque) {
    text += fmt::format("{}, never past {} turns", text.empty() ? "wind" : ", then wind",
                        shown_at_most(records::do_not_pass(p)));
  }
  return !text.empty() ? text : step.note.empty() ? "wait" : "as noted below";
}

/// Where to stop, large; below it the interval of the estimate and the other units.
void draw_stop(Sheet& sheet, const records::Planned& p, const records::BreakInStep& step,
               Units units) {
  const double x = sheet.x() + (kStepColumns[0] + kStepColumns[1]) * sheet.width() + 1.2;
  const double w = kStepColumns[2] * sheet.width() - 2;
  constexpr double kLarge = 5.3;
  const Estimate<Torque> stop = calc::stop_torque(p, step);
  Canvas& canvas = sheet.canvas();
  canvas.fit_in({.x = x, .y = sheet.y() + 0.2, .w = w, .h = kLarge}, shown(stop.value, units),
                {.size_pt = 12, .face = Face::sheet_bold, .smallest_pt = 7});
  canvas.fit_in(
      {.x = x, .y = sheet.y() + kLarge, .w = w, .h = kStepHeight - kLarge - 0.4},
      fmt::format("{} (95\u00a0%), {}", interval_of(stop, units), shown(stop.value, other(units))),
      {.size_pt = 8});
}

/// Below its step, over the whole width.
void draw_note(Sheet& sheet, const std::string& note) {
  Canvas& canvas = sheet.canvas();
  canvas.box(
      {.x = sheet.x(), .y = sheet.y(), .w = sheet.width(), .h = kNoteHeight, .line_width = 0.3});
  const double in = kStepColumns[0] * sheet.width() + 1.2;
  canvas.fit_in(
      {.x = sheet.x() + in, .y = sheet.y(), .w = sheet.width() - in - 1, .h = kNoteHeight}, note,
      {.size_pt = 10, .smallest_pt = 7});
  sheet.down(kNoteHeight);
}

}  // namespace

std::vector<Pass> passes_of(const records::Planned& planned) {
  std::vector<Pass> passes;
  for (std::size_t i = 0; i < planned.break_in.size(); ++i) {
    const records::BreakInStep& step = planned.break_in[i];
    for (int turn = 0; turn < step.repeat; ++turn) {
      std::string name = std::to_string(i + 1);
      if (step.repeat > 1) {
        name += turn < 26 ? fmt::format("{}", static_cast<char>('a' + turn))
                          : fmt::format("/{}", turn + 1);
      }
      passes.push_back({.name = std::move(name), .winds = calc::winds(step)});
    }
  }
  return passes;
}

double steps_height(const records::Planned& planned) {
  const auto notes = std::ranges::count_if(
      planned.break_in, [](const records::BreakInStep& step) { return !step.note.empty(); });
  return planned.break_in.empty()
             ? 0
             : kHeadHeight + kStepHeight * static_cast<double>(planned.break_in.size()) +
                   kNoteHeight * static_cast<double>(notes) + 2;
}

void draw_steps(Sheet& sheet, const records::Planned& planned, Units units) {
  if (planned.break_in.empty()) {
    return;
  }
  sheet.room(kHeadHeight + kStepHeight);
  draw_cells(sheet, {"step", "do", "stop there or at", "hold", "rest"}, kHeadHeight,
             {.size_pt = 8.5, .face = Face::sheet_bold}, 0.9);
  for (std::size_t i = 0; i < planned.break_in.size(); ++i) {
    const records::BreakInStep& step = planned.break_in[i];
    std::string rest = step.rest ? shown(*step.rest) : "–";
    if (step.repeat > 1) {
      rest += fmt::format("; {} times", step.repeat);
    }
    sheet.room(kStepHeight + (step.note.empty() ? 0 : kNoteHeight));
    if (step.stop_torque) {
      draw_stop(sheet, planned, step, units);
    }
    draw_cells(sheet,
               {std::to_string(i + 1), what_to_do(planned, step, units),
                step.stop_torque ? "" : "–", step.hold ? shown(*step.hold) : "–", rest},
               kStepHeight, figure(), -1);
    if (!step.note.empty()) {
      draw_note(sheet, step.note);
    }
  }
  sheet.down(2);
}

}  // namespace loopledger::page
