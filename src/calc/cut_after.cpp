// SPDX-License-Identifier: MIT
#include "calc/cut_after.h"

#include "cutting/cut_problem.h"
#include "cutting/cutting_plan.h"

namespace loopledger::calc {
namespace {

std::vector<bool> pieces_touched(const cutting::CuttingTask& task,
                                 const cutting::CuttingResult& result) {
  std::vector<bool> touched(task.pieces.size(), false);
  for (const auto& piece : result.piece_of) {
    if (piece) {
      touched[*piece] = true;
    }
  }
  return touched;
}

}  // namespace

std::vector<ShelfPiece> shelf_after(const cutting::CuttingTask& task,
                                    const cutting::CuttingResult& result,
                                    const std::vector<ShelfPiece>& before) {
  const std::vector<bool> touched = pieces_touched(task, result);
  const std::vector<Length> left = cutting::remnants(task, result);
  std::vector<ShelfPiece> after;
  for (std::size_t p = 0; p < before.size(); ++p) {
    if (!touched[p]) {
      after.push_back(before[p]);
    } else if (left[p] > cutting::kNothingLeft && !cutting::is_scrap(left[p], task.keep)) {
      ShelfPiece piece = before[p];
      piece.length = left[p];
      if (piece.mass) {
        piece.mass = *piece.mass * (left[p] / before[p].length);
      }
      after.push_back(std::move(piece));
    }
  }
  return after;
}

std::vector<std::size_t> how_many_more(const cutting::CuttingTask& task,
                                       const cutting::CuttingResult& result) {
  const cutting::Kinds kinds = cutting::on_grid(task);
  const cutting::Problem& problem = kinds.problem;
  std::vector<cutting::Grid> left = problem.room;
  for (std::size_t t = 0; t < kinds.motors.size(); ++t) {
    for (const std::size_t m : kinds.motors[t]) {
      if (result.piece_of[m]) {
        left[*result.piece_of[m]] -= problem.need[t][*result.piece_of[m]];
      }
    }
  }
  std::vector<std::size_t> more(task.cut.size(), 0);
  for (std::size_t t = 0; t < kinds.motors.size(); ++t) {
    std::size_t count = 0;
    for (std::size_t p = 0; p < left.size(); ++p) {
      count += left[p] > 0 ? static_cast<std::size_t>(left[p] / problem.need[t][p]) : 0;
    }
    for (const std::size_t m : kinds.motors[t]) {
      more[m] = count;
    }
  }
  return more;
}

std::vector<Length> cut_positions(const PieceCuts& cuts, const Batch& batch) {
  std::vector<Length> positions;
  Length at;
  for (const std::size_t motor : cuts.motors) {
    at += batch.motors[motor].planned.cut;
    positions.push_back(at);
  }
  return positions;
}

}  // namespace loopledger::calc
