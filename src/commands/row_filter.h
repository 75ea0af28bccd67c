// SPDX-License-Identifier: MIT
//
// Which motors of the ledger are meant: the filters that `list` and `match` share.
#pragma once

#include <string>

#include "commands/motor_rows.h"

namespace loopledger::commands {

/// Words in any case, with or without their marks; an empty one lets all through. The lot by
/// is_of_lot.
struct RowFilter {
  std::string owner;
  std::string rule;
  std::string lot;

  [[nodiscard]] bool takes(const MotorRow& row) const;
  /// A warning for each word that none of all these motors has, with what they have.
  [[nodiscard]] Diagnostics none_has(const std::vector<MotorRow>& rows) const;
  /// As it was typed, "--owner ANNA --lot May"; empty when nothing was.
  [[nodiscard]] std::string text() const;
};

}  // namespace loopledger::commands
