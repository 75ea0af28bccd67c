// SPDX-License-Identifier: MIT
//
// How a command ended: its exit code by what it has to say.
#pragma once

#include "base/diagnostic.h"

namespace loopledger::commands {

/// By the first error among them: kUsage (codes that begin with "usage-"), kEnvironment ("disk-"),
/// kNothingFound ("none-") or kInputErrors; kDone when there is no error.
[[nodiscard]] int exit_code_of(const Diagnostics& said);

/// What is wrong with a request's words, for kUsage: "loopledger: error: …".
/// @param code what stands behind "usage-"
[[nodiscard]] Diagnostic usage_error(const std::string& code, std::string message,
                                     std::string hint);

}  // namespace loopledger::commands
