// SPDX-License-Identifier: MIT
//
// The shelf after the night: what is left of each piece, and how many further motors it would give.
#pragma once

#include <vector>

#include "calc/figures.h"
#include "cutting/task.h"

namespace loopledger::calc {

/// The pieces to list after the night, in the same order: untouched ones as they were, remnants to
/// keep with their length, and mass in proportion to it where the piece had one. Scrap and pieces
/// that were cut to their end are not listed.
/// @pre `before` are the task's pieces
[[nodiscard]] std::vector<ShelfPiece> shelf_after(const cutting::CuttingTask& task,
                                                  const cutting::CuttingResult& result,
                                                  const std::vector<ShelfPiece>& before);

/// By motor of the task: how many more like it all remnants and untouched pieces would give, if
/// nothing else were cut from them. Exact. A remnant has lost its clean end already, an untouched
/// piece still loses it.
[[nodiscard]] std::vector<std::size_t> how_many_more(const cutting::CuttingTask& task,
                                                     const cutting::CuttingResult& result);

/// Where to cut a touched piece, in the order of its motors: positions from the clean end.
[[nodiscard]] std::vector<Length> cut_positions(const PieceCuts& cuts, const Batch& batch);

}  // namespace loopledger::calc
