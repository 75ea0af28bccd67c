// SPDX-License-Identifier: MIT
//
// What `print` does with the ledger before anything is written: which records it opens, and what
// those that are there say of the motors.
#pragma once

#include <cstddef>
#include <vector>

#include "base/result.h"
#include "calc/figures.h"
#include "commands/print_again.h"
#include "plan/plan.h"
#include "records/ledger.h"

namespace loopledger::commands {

struct RecordWork {
  std::vector<records::NewRecord> to_open;
  std::size_t kept = 0;  ///< there already, with the same figures
  PrintAgain again;
};

/// Which records are to be opened; a record of the same id with other figures is an error. The
/// batch's motors that have a record are brought up to it. `alone`: the batch is not all of the
/// plan.
[[nodiscard]] Result<RecordWork> compare_with_ledger(calc::Batch& batch, const plan::Plan& plan,
                                                     records::Ledger& ledger, bool alone);

}  // namespace loopledger::commands
