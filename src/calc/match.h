// SPDX-License-Identifier: MIT
//
// Figure 11: the N motors that are most alike, so that they fly the same. What makes motors alike
// is up to three figures: washed mass, loop length as it hangs now, and the torque at the most
// turns.
//
// Definition. The spread of a set in one figure is its largest minus its smallest value, in units
// of the ledger's own spread: the standard deviation (divisor n - 1) of that figure over all motors
// to choose from. A figure that is the same in all of them counts nothing. The spread of a set is
// the sum over the figures; the set with the least is the answer. Sums that differ by less than
// kMatchTie count as equal, so that the noise of a unit's conversion decides nothing; of equal sets
// it is the one whose motors come first: both sets in the order given, compared motor by motor.
//
// Method, bound and what was dropped: calc/match_search.h.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "base/quantity.h"

namespace loopledger::calc {

/// What is known of a motor; a figure that is not asked for is not looked at.
struct MatchFigures {
  Mass mass;
  Length loop;
  Torque torque;
};

/// Which figures are asked for.
struct MatchBy {
  bool mass = true;
  bool loop = true;
  bool torque = true;
};

/// Sums this close are equal; in units of the ledger's spread.
inline constexpr double kMatchTie = 1e-9;

/// Steps of the search (a motor looked at in a list) after which it gives up the proof: some
/// seconds. Counted, not timed, so that the same ledger gives the same set on every machine.
inline constexpr std::int64_t kMatchEffort = 1'500'000'000;

struct MatchShares {
  double mass = 0;
  double loop = 0;
  double torque = 0;
};

struct Match {
  std::vector<std::size_t> motors;  ///< rising indices into the motors given
  MatchFigures within;              ///< largest minus smallest; 0 when not asked for
  MatchFigures ledger;              ///< the standard deviation it is held against; the same
  MatchShares shares;               ///< within / ledger; 0 where the figure counts nothing
  double spread = 0;                ///< their sum
  bool proven = false;              ///< no set has a smaller sum; false: the effort was used up
};

/// The `wanted` motors that are most alike. Empty when there are fewer, `wanted` is 0, or no figure
/// is asked for. @pre figures asked for are finite
[[nodiscard]] std::optional<Match> most_alike(std::span<const MatchFigures> motors, MatchBy by,
                                              std::size_t wanted,
                                              std::int64_t effort = kMatchEffort);

}  // namespace loopledger::calc
