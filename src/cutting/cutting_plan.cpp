// SPDX-License-Identifier: MIT
#include "cutting/cutting_plan.h"

#include <algorithm>

#include "cutting/cut_aims.h"
#include "cutting/cut_choice.h"

namespace loopledger::cutting {
namespace {

using cutting::Counts;
using cutting::Grid;
using cutting::Kinds;

Length length_of(Grid grid) { return Length::si(static_cast<double>(grid) * 1e-9); }

/// Counts by piece as motors: of each kind the earliest that are cut, pieces in their order.
std::vector<std::optional<std::size_t>> pieces_of(const Kinds& kinds, const cutting::Fills& fills,
                                                  std::size_t motors) {
  std::vector<std::optional<std::size_t>> piece_of(motors);
  for (std::size_t t = 0; t < kinds.motors.size(); ++t) {
    auto next = kinds.motors[t].begin();
    for (std::size_t p = 0; p < fills.size(); ++p) {
      for (int i = 0; i < fills[p][t]; ++i) {
        piece_of[*next++] = p;
      }
    }
  }
  return piece_of;
}

/// The problem with only the kinds that are cut.
Kinds kept_kinds(const Kinds& kinds, const cutting::MotorChoice& choice, cutting::Fills& fills) {
  Kinds out;
  out.problem = kinds.problem;
  out.problem.need.clear();
  out.problem.count.clear();
  fills.assign(kinds.problem.pieces(), {});
  for (std::size_t t = 0; t < choice.kept.size(); ++t) {
    if (choice.kept[t] == 0) {
      continue;
    }
    out.problem.need.push_back(kinds.problem.need[t]);
    out.problem.count.push_back(choice.kept[t]);
    out.motors.push_back(kinds.motors[t]);
    for (std::size_t p = 0; p < fills.size(); ++p) {
      fills[p].push_back(choice.fills[p][t]);
    }
  }
  return out;
}

}  // namespace

CuttingResult make_cutting_plan(const CuttingTask& task, std::int64_t effort) {
  CuttingResult result;
  const Kinds kinds = cutting::on_grid(task);
  cutting::Effort steps{effort / 2};
  const cutting::MotorChoice choice = cutting::choose_motors(kinds, steps);
  steps.left += effort - effort / 2;

  cutting::Fills start;
  const Kinds kept = kept_kinds(kinds, choice, start);
  const cutting::Best best = cutting::best_plan(kept.problem, start, steps);
  result.piece_of = pieces_of(kept, best.fills, task.cut.size());
  result.motors_gap =
      static_cast<std::size_t>(std::max(0, choice.most - cutting::total(choice.kept)));
  result.scrap = length_of(best.aims.scrap);
  result.gap = length_of(best.aims.scrap - best.bound.scrap);
  result.touched = static_cast<std::size_t>(best.aims.touched);
  result.touched_gap = static_cast<std::size_t>(best.aims.touched - best.bound.touched);
  result.longest = length_of(best.aims.longest);
  result.longest_gap = length_of(best.bound.longest - best.aims.longest);
  result.aims_proven = choice.proven ? 1 + static_cast<std::size_t>(best.proven) : 0;
  result.proven = result.aims_proven == kCuttingAims;
  result.effort = effort - std::max<std::int64_t>(steps.left, 0);
  return result;
}

std::vector<Length> remnants(const CuttingTask& task, const CuttingResult& result) {
  std::vector<Length> left;
  std::vector<bool> touched(task.pieces.size(), false);
  for (const StripPiece& piece : task.pieces) {
    left.push_back(piece.length);
  }
  for (std::size_t m = 0; m < result.piece_of.size(); ++m) {
    if (!result.piece_of[m]) {
      continue;
    }
    const std::size_t p = *result.piece_of[m];
    if (!touched[p]) {
      touched[p] = true;
      left[p] -= task.pieces[p].ends;
    }
    left[p] -= task.cut[m][p];
  }
  return left;
}

}  // namespace loopledger::cutting
