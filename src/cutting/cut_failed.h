// SPDX-License-Identifier: MIT
//
// What a search has found to fail: so many motors of each kind left before a piece, with so much
// left of the target. A table of bounded size; when it is full a newer entry takes the place of an
// older one. The counts are stored whole, not as a hash, so a wrong "failed" can't come from two
// that look alike.
#pragma once

#include <array>
#include <optional>

#include "cutting/cut_problem.h"

namespace loopledger::cutting {

/// What is left of the target.
struct Allowance {
  Grid scrap = 0;
  int touched = 0;
  bool need = false;  ///< a long piece must still be left
};

class Failed {
 public:
  using Key = std::array<std::uint64_t, 5>;

  explicit Failed(const Counts& most);
  /// Empty when the counts have too many states to be stored.
  [[nodiscard]] std::optional<Key> key(std::size_t place, const Counts& counts) const;
  [[nodiscard]] bool holds(const Key& key, const Allowance& allowance) const;
  void add(const Key& key, const Allowance& allowance);

 private:
  struct Entry {
    Key key{};
    Allowance allowance;
    bool used = false;
  };
  [[nodiscard]] std::size_t slot(const Key& key) const;
  void grow();

  Counts most_;
  std::vector<std::size_t> word_;  ///< by kind: which word of the key holds it
  bool fits_ = true;
  unsigned bits_;
  std::size_t used_ = 0;
  std::vector<Entry> entries_;
};

}  // namespace loopledger::cutting
