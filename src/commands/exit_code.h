// SPDX-License-Identifier: MIT
//
// Every exit code of the program. Scripts rely on them: a number is never reused.
#pragma once

namespace loopledger::commands {

inline constexpr int kDone = 0;  ///< done; for `scan`: at least one tag was read
inline constexpr int kInputErrors =
    1;                            ///< the input has errors, a wrong check character among them
inline constexpr int kUsage = 2;  ///< the command line was not understood
inline constexpr int kEnvironment = 3;   ///< disk or environment: absent, a folder, no permission
inline constexpr int kNothingFound = 4;  ///< no readable label; an id the ledger does not hold
inline constexpr int kInternal = 70;     ///< a fault of ours

}  // namespace loopledger::commands
