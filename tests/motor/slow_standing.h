// SPDX-License-Identifier: MIT
//
// Slow and obviously right: which entries of a record count, and when. Written from the words of
// motor/standing.h alone, as definitions that ask for each other instead of one pass: "what does
// this line say", "which corrections of it are in force", "when does it say it happened". For tests
// of motor/standing.h and motor/now.h.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "motor/now.h"
#include "records/entry.h"

namespace loopledger::test {

class SlowStanding {
 public:
  explicit SlowStanding(const std::vector<records::Entry>& entries);

  /// All places where something counts, in the order of their time.
  [[nodiscard]] std::vector<motor::Standing> in_time() const;
  /// Unsound lines that nothing sound was said about.
  [[nodiscard]] std::vector<const records::Entry*> unanswered() const;
  /// Corrections in force beside a newer one of the same entry.
  [[nodiscard]] std::vector<motor::Superseded> superseded() const;

 private:
  using Index = std::size_t;
  /// The line of this key; of several the first.
  [[nodiscard]] std::optional<Index> line_of(const std::string& key) const;
  /// The line that this one's link leads to.
  [[nodiscard]] std::optional<Index> next(Index i) const { return next_[i]; }
  [[nodiscard]] bool in_circle(Index i) const;
  /// Is a correction, of an entry here or of one that the record does not have.
  [[nodiscard]] bool corrects(Index i) const;
  [[nodiscard]] bool corrects_absent(Index i, const std::string& key) const;
  /// The corrections of a line that are in force.
  [[nodiscard]] std::vector<Index> in_force(Index of) const;
  [[nodiscard]] std::vector<Index> in_force_of_absent(const std::string& key) const;
  [[nodiscard]] Index newest(const std::vector<Index>& corrections) const;
  /// What counts where this line stands; empty: nothing does.
  [[nodiscard]] std::optional<Index> says(Index i) const;
  /// What these corrections make of the place they are of.
  [[nodiscard]] std::optional<Index> made_of(const std::vector<Index>& corrections) const;
  /// The time that a line claims, or the one before it.
  [[nodiscard]] std::optional<Moment> claimed(Index i) const;

  const std::vector<records::Entry>& entries_;
  std::vector<std::optional<Index>> next_;
};

}  // namespace loopledger::test
