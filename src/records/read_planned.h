// SPDX-License-Identifier: MIT
//
// The head of a record read: format, id, check character and the figures as planned.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"
#include "records/entry.h"

namespace loopledger::records {

/// The figures as planned that were read last. The motors of a batch differ in little but their
/// ids, so that most of a ledger's heads say again what one of the last said.
class PlannedSeen {
 public:
  struct Figures {
    std::string text;  ///< from [planned] to the sum, as it stood, without a fault
    Planned planned;
    std::vector<std::pair<std::string, std::string>> unknown;
  };
  /// nullptr when no such text was seen among the last.
  [[nodiscard]] const Figures* find(std::string_view text);
  void add(Figures seen);

 private:
  static constexpr std::size_t kMost = 16;
  std::vector<Figures> seen_;  // the last used at the end
};

/// Fills id, check, planned and planned_unknown from the text before the entries. Errors:
/// record-head (no TOML), record-foreign (no record), record-format (a newer format), record-id,
/// record-value, record-missing, record-size. With `seen`, figures whose text was seen before are
/// not read again.
[[nodiscard]] Result<Record> read_head(std::string_view head, const std::string& file,
                                       PlannedSeen* seen = nullptr);

}  // namespace loopledger::records
