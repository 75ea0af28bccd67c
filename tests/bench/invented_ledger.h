// SPDX-License-Identifier: MIT
//
// A ledger of invented motors, written by the program's own writers: batches of 24 whose figures
// differ from batch to batch, each motor weighed, tied, broken in and wound twice, and half of
// them with a label that is out of date.
#pragma once

#include <string>
#include <vector>

namespace loopledger::bench {

/// Writes `count` records into the folder, which is there.
void write_ledger(const std::string& folder, int count);

/// The id of the motor `index` of such a ledger, with its check character: "AB-01-9".
[[nodiscard]] std::string id_in_ledger(int index);

}  // namespace loopledger::bench
