// SPDX-License-Identifier: MIT
#include "sheets/field_card_tables.h"

#include <fmt/format.h>

#include <array>
#include <span>
#include <string>
#include <utility>

#include "calc/cranks.h"
#include "calc/turns_torque.h"
#include "sheets/field_card_text.h"

namespace loopledger::sheets {
namespace {

constexpr int kCardRows = 5;
constexpr double kCardTableHead = 9;
constexpr double kCardRow = (kCardTablesHeight - kCardTableHead) / kCardRows;
constexpr double kBackOffWidth = 92;
constexpr double kBetweenTables = 4;
constexpr std::array<double, kCardRows> kLetOut{0, 5, 10, 15, 20};  // per cent of "wind to"

using TableColumn = std::pair<std::string, double>;  // its head, its width

void draw_card_grid(page::Canvas& canvas, const page::Box& table, const std::string& title,
                    std::span<const TableColumn> columns) {
  canvas.fit(table.x, table.y, table.w - 2, title,
             {.size_pt = 9, .face = page::Face::sheet_bold, .smallest_pt = 7});
  const double top = table.y + kCardTableHead;
  const double bottom = top + kCardRows * kCardRow;
  double at = table.x;
  for (const auto& [name, width] : columns) {
    canvas.fit(at + 0.8, table.y + 5, width - 1.6, name,
               {.size_pt = 8, .smallest_pt = 6, .max_lines = 1});
    canvas.line(at, top, at, bottom, 0.15);
    at += width;
  }
  canvas.line(table.x + table.w, top, table.x + table.w, bottom, 0.15);
  for (int row = 0; row <= kCardRows; ++row) {
    canvas.line(table.x, top + row * kCardRow, table.x + table.w, top + row * kCardRow,
                row == 0 ? 0.4 : 0.15);
  }
}

void draw_back_off(page::Canvas& canvas, double x, double y, const motor::CardMotor& motor,
                   Units units) {
  const std::array<TableColumn, 5> columns{{{"let out", 13},
                                            {"turns", 13},
                                            {"cranks", 13},
                                            {"left in", 14},
                                            {"torque, " + torque_unit(units), kBackOffWidth - 53}}};
  draw_card_grid(canvas, {.x = x, .y = y, .w = kBackOffWidth},
                 "BACK OFF from “wind to”: estimate (95 %)", columns);
  if (!motor.curve) {
    return;
  }
  const bool cranked = calc::has_cranks(motor.winder_ratio);
  for (std::size_t row = 0; row < kLetOut.size(); ++row) {
    const Turns out = motor.wind_to * (kLetOut[row] / 100);
    const Turns left = motor.wind_to - out;
    const std::array<std::string, 5> cells{
        fmt::format("{:.0f} %", kLetOut[row]), fixed(out.count(), 0),
        cranked ? fixed(calc::nearest_cranks(out, motor.winder_ratio), 0) : "–",
        shown_at_most(left),
        torque_with_interval(calc::share_of(motor.expected, motor.curve->torque_at(left)), units)};
    double at = x;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const bool counted_off = c == (cranked ? 2U : 1U);  // what the hand does
      canvas.fit_in({.x = at + 0.8,
                     .y = y + kCardTableHead + static_cast<double>(row) * kCardRow,
                     .w = columns[c].second - 1.6,
                     .h = kCardRow},
                    cells[c],
                    {.size_pt = 10,
                     .face = counted_off ? page::Face::sheet_bold : page::Face::sheet,
                     .smallest_pt = 6.5});
      at += columns[c].second;
    }
  }
}

void draw_today(page::Canvas& canvas, double x, double y, double w, Units units) {
  const std::array<TableColumn, 5> columns{{{"turns", w * 0.19},
                                            {torque_unit(units), w * 0.19},
                                            {"let out", w * 0.19},
                                            {units == Units::inch ? "°F" : "°C", w * 0.14},
                                            {"flight, turns left", w * 0.29}}};
  draw_card_grid(canvas, {.x = x, .y = y, .w = w}, "TODAY", columns);
  constexpr double kDate = 34;
  canvas.text(x + w - kDate - 1, y + page::cap_height(9), "date",
              {.size_pt = 8, .align = page::Align::right});
  canvas.blank(x + w - kDate, y + page::cap_height(9), kDate);
}

}  // namespace

void draw_card_tables(page::Canvas& canvas, double x, double y, double width,
                      const motor::CardMotor& motor, Units units) {
  draw_back_off(canvas, x, y, motor, units);
  draw_today(canvas, x + kBackOffWidth + kBetweenTables, y, width - kBackOffWidth - kBetweenTables,
             units);
}

}  // namespace loopledger::sheets
