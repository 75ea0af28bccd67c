// SPDX-License-Identifier: MIT
#include "cutting/cut_problem.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace loopledger::cutting {
namespace {

constexpr double kGridPerMetre = 1e9;
constexpr double kOnGrid = 0.01;

Grid grid_up(Length l) { return static_cast<Grid>(std::ceil(l.in_si() * kGridPerMetre - kOnGrid)); }
Grid grid_down(Length l) {
  return static_cast<Grid>(std::floor(l.in_si() * kGridPerMetre + kOnGrid));
}

}  // namespace

Kinds on_grid(const CuttingTask& task) {
  // A row as key: std::map sorts kinds by falling length when the rows are negated.
  std::map<std::vector<Grid>, std::vector<std::size_t>> rows;
  for (std::size_t m = 0; m < task.cut.size(); ++m) {
    std::vector<Grid> row;
    for (const Length cut : task.cut[m]) {
      row.push_back(-std::max<Grid>(grid_up(cut), 1));
    }
    rows[row].push_back(m);
  }
  Kinds out;
  for (const StripPiece& piece : task.pieces) {
    out.problem.whole.push_back(grid_down(piece.length));
    out.problem.room.push_back(grid_down(piece.length - piece.ends));
  }
  // What `is_scrap` keeps is kept here too.
  out.problem.keep = std::max<Grid>(grid_up(task.keep - kNothingLeft), 0);
  for (const auto& [negated, motors] : rows) {
    std::vector<Grid> row;
    for (const Grid length : negated) {
      row.push_back(-length);
      out.problem.alike = out.problem.alike && length == negated.front();
    }
    out.problem.need.push_back(std::move(row));
    out.problem.count.push_back(static_cast<int>(motors.size()));
    out.motors.push_back(motors);
  }
  return out;
}

bool better(const Aims& a, const Aims& b) {
  if (a.scrap != b.scrap) {
    return a.scrap < b.scrap;
  }
  return a.touched != b.touched ? a.touched < b.touched : a.longest > b.longest;
}

Grid fill_length(const Problem& problem, const Counts& fill, std::size_t piece) {
  Grid sum = 0;
  for (std::size_t t = 0; t < fill.size(); ++t) {
    sum += fill[t] * problem.need[t][piece];
  }
  return sum;
}

Aims aims_of(const Problem& problem, const Fills& fills) {
  Aims aims;
  aims.scrap = 0;
  for (std::size_t p = 0; p < problem.pieces(); ++p) {
    Grid left = problem.whole[p];
    if (total(fills[p]) > 0) {
      ++aims.touched;
      left = problem.room[p] - fill_length(problem, fills[p], p);
      aims.scrap += left < problem.keep ? left : 0;
    }
    aims.longest = std::max(aims.longest, left);
  }
  return aims;
}

int total(const Counts& counts) { return std::accumulate(counts.begin(), counts.end(), 0); }

}  // namespace loopledger::cutting
