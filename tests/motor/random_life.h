// SPDX-License-Identifier: MIT
//
// Random lives of motors, the same for a seed on every machine: nothing of <random> but the
// generator, whose numbers the standard fixes, is used.
#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "records/entry.h"

namespace loopledger::test {

/// Draws within bounds.
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : numbers_(seed) {}
  /// 0 to below - 1
  [[nodiscard]] std::size_t below(std::size_t bound) { return numbers_() % bound; }
  [[nodiscard]] bool percent(std::size_t chance) { return below(100) < chance; }
  /// Evenly, in a thousand steps.
  [[nodiscard]] double between(double low, double high) {
    return low + (high - low) * static_cast<double>(below(1001)) / 1000;
  }
  template <class T>
  [[nodiscard]] const T& of(const std::vector<T>& choices) {
    return choices[below(choices.size())];
  }

 private:
  std::mt19937_64 numbers_;
};

/// Motors as calc/ plans them: with and without rule, rings, lubricant, tails, recipe, lot.
[[nodiscard]] const std::vector<records::Planned>& planned_motors();

/// Only what is sound and in order: no damage, no corrections, each entry at a time of its own.
[[nodiscard]] records::Record plain_life(Draw& draw, std::size_t entries);

/// The same with corrections: a third of the entries correct an earlier one or take it back.
[[nodiscard]] records::Record corrected_life(Draw& draw, std::size_t entries);

/// 0 to 25 entries of all kinds, plausible or not, most of them in order; corrections of all that
/// can be corrected and of what is not there, circles, unsound lines, a damaged head.
[[nodiscard]] records::Record random_life(Draw& draw);

/// An entry of a kind with values for this motor, its key still empty.
[[nodiscard]] records::Entry random_entry(Draw& draw, const records::Planned& planned,
                                          records::Kind kind);

/// A key for a time: the number makes it the only one.
[[nodiscard]] std::string key_at(Moment at, std::size_t number);

}  // namespace loopledger::test
