// SPDX-License-Identifier: MIT
//
// The exact search: is there a plan that cuts every motor of the problem and meets a target?
//
// Piece by piece, every filling (so many motors of each kind) that the bound of cutting/cut_reach.h
// lets pass is tried, longest motors first. For each piece a table over its length says which sums
// the kinds still to come can complete to an allowed filling, so the listing runs into no dead end.
// What is left to cut behind a piece, with what is left of the target, is remembered when it
// failed, in a table of fixed size; that also spares equal pieces and orders that come to the same.
// When all pieces still open are equal, the next one takes a longest motor that is left.
//
// Tables count in the lengths' greatest common divisor when that gives few enough cells (lengths
// in whole millimetres); else in coarser cells with a margin, and each filling is checked exactly.
#pragma once

#include <memory>

#include "cutting/cut_reach.h"

namespace loopledger::cutting {

/// How a search goes through the same space; any style is exact when it runs to its end.
struct Style {
  bool short_first = true;      ///< pieces by rising room, else falling
  bool untouched_first = true;  ///< leaving a piece alone is tried before filling it
  bool fewest_first = false;    ///< of a kind, the fewest motors first
  std::uint32_t shuffle = 0;    ///< not 0: the order of trying is shuffled by it
};

enum class Verdict { found, none, unknown };

struct Answer {
  Verdict verdict = Verdict::unknown;  ///< none: proven; unknown: the effort was used up
  Fills fills;                         ///< when found
};

class Walk;

class Search {
 public:
  Search(const Problem& problem, const Limits& limits, const Style& style);
  Search(const Search&) = delete;
  Search& operator=(const Search&) = delete;
  ~Search();

  /// What has failed is remembered from run to run, so no target may be looser than the one before.
  /// @pre target.touched <= pieces
  [[nodiscard]] Answer run(const Target& target, Effort& effort);

 private:
  std::unique_ptr<Walk> walk_;
};

}  // namespace loopledger::cutting
