// SPDX-License-Identifier: MIT
//
// Slow and obviously right: one motor as it is now, written from the words of motor/now.h alone,
// each question answered from scratch over the whole list of what counts (slow_standing.h). For
// tests of motor::now_of.
#pragma once

#include "motor/now.h"

namespace loopledger::test {

/// The same as motor::now_of() should say. `record` must outlive it.
[[nodiscard]] motor::Now slow_now(const records::Record& record);

}  // namespace loopledger::test
