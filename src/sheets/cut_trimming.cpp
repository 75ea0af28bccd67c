// SPDX-License-Identifier: MIT
//
// How much to snip off for so many milligrams over: a strip that stands above the table, so that
// nobody divides with wet hands.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "calc/weigh.h"
#include "sheets/cut_sections.h"
#include "sheets/figures_text.h"

namespace loopledger::sheets {
namespace {

constexpr std::array kOver{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30};
static_assert(kOver.size() == kTrimColumns);
constexpr double kTrimHead = 5.5;
constexpr double kTrimRow = 6;
constexpr double kTrimLabel = 36;
constexpr double kTrimBelow = 1.5;
constexpr page::Style kTrimName{.size_pt = 8.5, .face = page::Face::sheet_bold};

/// What scissors can do: to 0.1 mm below 1 mm, else to 0.5 mm; to 0.01 in.
std::string snip(Length length, Units units) {
  const double value = units == Units::inch ? length.in_in() : length.in_mm();
  const double step = units == Units::inch ? 0.01 : value < 1 ? 0.1 : 0.5;
  return rounded(std::round(value / step) * step, 4);
}

/// A coarse scale can't read 1 mg over: the table then goes in its steps.
Mass trim_step(const records::Planned& p) { return std::max(p.scale_step, Mass::mg(1)); }

std::vector<std::string> name_lines(page::Sheet& sheet, const calc::Batch& batch,
                                    const TrimRow& row, Units units) {
  std::string text = fmt::format("snip {} of {}", unit_name(units), row.strip);
  if (!row.pieces.empty()) {
    text += fmt::format(", piece {}", fmt::join(row.pieces, ", "));
  } else if (!row.motors.empty()) {
    text += fmt::format(", {}", id_list(batch, row.motors));
  }
  return sheet.canvas().lines_of(kTrimLabel - 2.5, text, kTrimName);
}

double row_height_of(const std::vector<std::string>& names) {
  return std::max(kTrimRow,
                  page::line_height(kTrimName.size_pt) * static_cast<double>(names.size()) + 1.6);
}

/// Only what tells a strip's rows apart: its pieces where none is in two rows, else the motors.
void name_rows(std::vector<TrimRow>& rows) {
  std::map<std::string, std::vector<TrimRow*>> by_strip;
  for (TrimRow& row : rows) {
    by_strip[row.strip].push_back(&row);
  }
  for (auto& [strip, of_strip] : by_strip) {
    std::set<std::string> seen;
    const bool pieces_tell = std::ranges::all_of(of_strip, [&](const TrimRow* row) {
      return !row->pieces.empty() && std::ranges::all_of(row->pieces, [&](const std::string& tag) {
        return seen.insert(tag).second;
      });
    });
    for (TrimRow* row : of_strip) {
      if (of_strip.size() == 1 || !pieces_tell) {
        row->pieces.clear();
      }
      if (of_strip.size() == 1 || pieces_tell) {
        row->motors.clear();
      }
    }
  }
}

}  // namespace

std::vector<TrimRow> trim_rows(const calc::Batch& batch, std::span<const std::size_t> motors,
                               Units units) {
  std::vector<TrimRow> rows;
  for (const std::size_t motor : motors) {
    const records::Planned& p = batch.motors[motor].planned;
    TrimRow row{.strip = p.strip, .step = trim_step(p), .snips = {}, .pieces = {}, .motors = {}};
    for (std::size_t i = 0; i < kOver.size(); ++i) {
      row.snips[i] = snip(calc::snip_for(p, Stage::washed, row.step * kOver[i]), units);
    }
    auto found = std::find_if(rows.begin(), rows.end(), [&](const TrimRow& other) {
      return other.strip == row.strip && other.snips == row.snips;
    });
    if (found == rows.end()) {
      found = rows.insert(rows.end(), std::move(row));
    }
    found->motors.push_back(motor);
    if (!p.piece.empty()) {
      found->pieces.insert(p.piece);
    }
  }
  name_rows(rows);
  return rows;
}

double trimming_height(page::Sheet& sheet, const calc::Batch& batch, std::span<const TrimRow> rows,
                       Units units) {
  double height = kTrimHead + kTrimBelow;
  for (const TrimRow& row : rows) {
    height += row_height_of(name_lines(sheet, batch, row, units));
  }
  return height;
}

void draw_trimming(page::Sheet& sheet, const calc::Batch& batch, std::span<const TrimRow> rows,
                   Units units) {
  page::Canvas& canvas = sheet.canvas();
  const double top = sheet.y();
  const double height = trimming_height(sheet, batch, rows, units) - kTrimBelow;
  const double cell = (sheet.width() - kTrimLabel) / static_cast<double>(kOver.size());
  const auto x_of = [&](std::size_t i) {
    return sheet.x() + kTrimLabel + static_cast<double>(i) * cell;
  };
  canvas.box({.x = sheet.x(), .y = top, .w = sheet.width(), .h = height, .line_width = 0.3});
  canvas.text(sheet.x() + 1.5, top + 4.2, "mg over", {.size_pt = 11});
  for (std::size_t i = 0; i < kOver.size(); ++i) {
    canvas.line(x_of(i), top, x_of(i), top + height, 0.15, 0.5);
    canvas.fit(x_of(i), top + 1.4, cell, rounded((rows.front().step * kOver[i]).in_mg(), 4),
               {.size_pt = 11, .align = page::Align::centre, .smallest_pt = 8});
  }
  sheet.down(kTrimHead);
  for (const TrimRow& row : rows) {
    const std::vector<std::string> names = name_lines(sheet, batch, row, units);
    const double h = row_height_of(names);
    canvas.line(sheet.x(), sheet.y(), sheet.x() + sheet.width(), sheet.y(), 0.15, 0.5);
    double y = sheet.y() + 1 + page::cap_height(kTrimName.size_pt);
    for (const std::string& line : names) {
      canvas.text(sheet.x() + 1.5, y, line, kTrimName);
      y += page::line_height(kTrimName.size_pt);
    }
    for (std::size_t i = 0; i < kOver.size(); ++i) {
      canvas.fit(x_of(i) + 0.3, sheet.y() + 1, cell - 0.6, row.snips[i],
                 {.size_pt = 12,
                  .face = page::Face::sheet_bold,
                  .align = page::Align::centre,
                  .smallest_pt = 8});
    }
    sheet.down(h);
  }
  sheet.down(kTrimBelow);
}

}  // namespace loopledger::sheets
