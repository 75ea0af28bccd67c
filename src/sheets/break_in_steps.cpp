// SPDX-License-Identifier: MIT
#include "sheets/break_in_steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "calc/break_in.h"
#include "calc/cranks.h"
#include "sheets/figures_text.h"

namespace loopledger::sheets {
namespace {

constexpr double kHeadHeight = 5.5;
constexpr double kLeastHeight = 8.5;
constexpr double kStepPadding = 5.2;  // of a row, beside the lines after its first
constexpr double kSmallLine = 3.6;
constexpr std::array kStepColumns{0.06, 0.43, 0.25, 0.11, 0.15};  // step, do, stop at, hold, rest
constexpr std::size_t kStop = 2;
constexpr int kWrittenDown = 8;  // passes of one step that have blanks of their own

constexpr page::Style kStepFigure{.size_pt = 12, .face = page::Face::sheet_bold};
constexpr page::Style kStepSmall{.size_pt = 8};
constexpr page::Style kStepNote{.size_pt = 10};

using Lines = std::vector<std::string>;

/// One step as it is printed.
struct StepRow {
  std::array<Lines, kStepColumns.size()> cells;
  Lines stop_small;  ///< below where to stop
  Lines note;
  double height = 0;       ///< without the note
  double note_height = 0;  ///< 0: no note
};

/// Turns let the crank be counted; without a winder ratio both are the same number.
Lines step_actions(const records::Planned& p, const records::BreakInStep& step, Units units) {
  Lines all;
  if (step.stretch) {
    all.push_back("stretch to " + both(*step.stretch, units));
  }
  if (step.turns) {
    std::string text = fmt::format("wind {} turns", shown_at_most(*step.turns));
    if (step.cranks && calc::has_cranks(p.winder_ratio)) {
      text += fmt::format(" =\u00a0{}\u00a0cranks", *step.cranks);
    }
    all.push_back(std::move(text));
  } else if (step.stop_torque) {
    all.emplace_back("wind");
    all.push_back("never past " + turns_at_most(p, records::do_not_pass(p)));
  }
  if (all.empty()) {
    all.emplace_back(step.note.empty() ? "wait" : "as noted below");
  }
  return all;
}

/// "23 h", "30 min": a number stays with its unit when the cell is narrow.
std::string kept_together(Duration duration) {
  std::string text;
  bool number = false;
  for (const char c : shown(duration)) {
    if (c == ' ' && number) {
      text += "\u00a0";
    } else {
      text += c;
    }
    number = c >= '0' && c <= '9';
  }
  return text;
}

Lines step_lines(page::Sheet& sheet, const Lines& texts, double width, const page::Style& style) {
  Lines lines;
  for (const std::string& text : texts) {
    for (std::string& line : sheet.canvas().lines_of(width, text, style)) {
      lines.push_back(std::move(line));
    }
  }
  return lines;
}

double step_column_width(const page::Sheet& sheet, std::size_t i) {
  return kStepColumns[i] * sheet.width() - 2;
}

double note_indent(const page::Sheet& sheet) { return kStepColumns[0] * sheet.width() + 1.2; }

StepRow step_row(page::Sheet& sheet, const records::Planned& p, std::size_t i, Units units) {
  const records::BreakInStep& step = p.break_in[i];
  std::array<Lines, kStepColumns.size()> texts{Lines{std::to_string(i + 1)},
                                               step_actions(p, step, units), Lines{"–"},
                                               Lines{step.hold ? kept_together(*step.hold) : "–"},
                                               Lines{step.rest ? kept_together(*step.rest) : "–"}};
  if (step.repeat > 1) {
    texts.back().push_back(fmt::format("{} times", step.repeat));
  }
  StepRow row;
  double small = 0;
  if (step.stop_torque) {
    const Estimate<Torque> stop = calc::stop_torque(p, step);
    texts[kStop] = {shown(stop.value, units)};
    row.stop_small = step_lines(
        sheet,
        {fmt::format("{} (95\u00a0%),", interval_of(stop, units)), shown(stop.value, other(units))},
        step_column_width(sheet, kStop), kStepSmall);
    small = kSmallLine * static_cast<double>(row.stop_small.size());
  }
  row.height = kLeastHeight;
  for (std::size_t c = 0; c < texts.size(); ++c) {
    row.cells[c] = step_lines(sheet, texts[c], step_column_width(sheet, c), kStepFigure);
    const double more =
        page::line_height(kStepFigure.size_pt) * static_cast<double>(row.cells[c].size() - 1);
    row.height = std::max(row.height, more + page::cap_height(kStepFigure.size_pt) + kStepPadding +
                                          (c == kStop && small > 0 ? small - 1.6 : 0));
  }
  if (!step.note.empty()) {
    row.note = step_lines(sheet, {step.note}, sheet.width() - note_indent(sheet) - 1, kStepNote);
    row.note_height =
        page::line_height(kStepNote.size_pt) * static_cast<double>(row.note.size()) + 2;
  }
  return row;
}

/// Lines one below the other from the top of a box that is at the cursor.
void draw_step_cell(page::Sheet& sheet, const Lines& lines, double x, double y,
                    const page::Style& style, double line) {
  for (const std::string& text : lines) {
    sheet.canvas().text(x, y + page::cap_height(style.size_pt), text, style);
    y += line;
  }
}

void draw_steps_head(page::Sheet& sheet) {
  constexpr std::array kNames{"step", "do", "stop there or at", "hold", "rest"};
  sheet.canvas().box({.x = sheet.x(),
                      .y = sheet.y(),
                      .w = sheet.width(),
                      .h = kHeadHeight,
                      .line_width = 0.3,
                      .fill_grey = 0.9});
  double x = sheet.x();
  for (std::size_t i = 0; i < kNames.size(); ++i) {
    sheet.canvas().text(x + 1.2, sheet.y() + 3.8, kNames[i],
                        {.size_pt = 8.5, .face = page::Face::sheet_bold});
    x += kStepColumns[i] * sheet.width();
  }
  sheet.down(kHeadHeight);
}

void draw_step_row(page::Sheet& sheet, const StepRow& row) {
  page::Canvas& canvas = sheet.canvas();
  canvas.box(
      {.x = sheet.x(), .y = sheet.y(), .w = sheet.width(), .h = row.height, .line_width = 0.3});
  const double top = sheet.y() + kStepPadding / 2;
  double x = sheet.x() + 1.2;
  for (std::size_t c = 0; c < row.cells.size(); ++c) {
    draw_step_cell(sheet, row.cells[c], x, c == kStop && !row.stop_small.empty() ? top - 1 : top,
                   kStepFigure, page::line_height(kStepFigure.size_pt));
    if (c == kStop) {
      draw_step_cell(sheet, row.stop_small, x, top + page::cap_height(kStepFigure.size_pt) + 0.4,
                     kStepSmall, kSmallLine);
    }
    x += kStepColumns[c] * sheet.width();
  }
  sheet.down(row.height);
  if (row.note_height > 0) {
    canvas.box({.x = sheet.x(),
                .y = sheet.y(),
                .w = sheet.width(),
                .h = row.note_height,
                .line_width = 0.3});
    draw_step_cell(sheet, row.note, sheet.x() + note_indent(sheet), sheet.y() + 1.6, kStepNote,
                   page::line_height(kStepNote.size_pt));
    sheet.down(row.note_height);
  }
}

}  // namespace

std::vector<Pass> passes_of(const records::Planned& planned) {
  std::vector<Pass> passes;
  for (std::size_t i = 0; i < planned.break_in.size(); ++i) {
    const records::BreakInStep& step = planned.break_in[i];
    const std::string name = std::to_string(i + 1);
    if (step.repeat > kWrittenDown) {
      passes.push_back({.name = name, .winds = calc::winds(step), .tally = step.repeat});
      continue;
    }
    for (int turn = 0; turn < step.repeat; ++turn) {
      const std::string letter =
          step.repeat > 1 ? std::string(1, static_cast<char>('a' + turn)) : "";
      passes.push_back({.name = name + letter, .winds = calc::winds(step)});
    }
  }
  return passes;
}

double steps_height(page::Sheet& sheet, const records::Planned& planned, Units units) {
  double height = planned.break_in.empty() ? 0 : kHeadHeight + 2;
  for (std::size_t i = 0; i < planned.break_in.size(); ++i) {
    const StepRow row = step_row(sheet, planned, i, units);
    height += row.height + row.note_height;
  }
  return height;
}

void draw_steps(page::Sheet& sheet, const records::Planned& planned, Units units) {
  for (std::size_t i = 0; i < planned.break_in.size(); ++i) {
    const StepRow row = step_row(sheet, planned, i, units);
    const double height = row.height + row.note_height;
    if (i == 0) {
      sheet.room(kHeadHeight + height);
    }
    if (sheet.room(height) || i == 0) {
      draw_steps_head(sheet);
    }
    draw_step_row(sheet, row);
  }
  if (!planned.break_in.empty()) {
    sheet.down(2);
  }
}

std::string turns_at_most(const records::Planned& p, Turns most) {
  std::string text = shown_at_most(most) + " turns";
  if (calc::has_cranks(p.winder_ratio)) {
    text += fmt::format(" =\u00a0{:.0f}\u00a0cranks", calc::cranks_at_most(most, p.winder_ratio));
  }
  return text;
}

}  // namespace loopledger::sheets
