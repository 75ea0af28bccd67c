// SPDX-License-Identifier: MIT
//
// How two plannings of one motor differ where it matters: masses, lengths, strip and rule. Used
// when a plan is printed again for a motor that has a record.
#pragma once

#include <string>
#include <vector>

#include "records/planned.h"

namespace loopledger::records {

/// What differs, a phrase each ("loop 300 mm, now 312 mm"), empty when nothing does. Masses are
/// compared at half of the last digit that the scale of `record` shows, lengths at half a
/// millimetre, widths at half of a hundredth of one.
[[nodiscard]] std::vector<std::string> differences(const Planned& record, const Planned& now);

}  // namespace loopledger::records
