// SPDX-License-Identifier: MIT
//
// The whole program run inside a test: arguments in; exit code, output and diagnostics out. The
// clock is fixed, the environment is what the test says.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "support/has.h"
#include "support/ran.h"
#include "support/temp_folder.h"

namespace loopledger::test {

/// The first line that is wider than a terminal of 100 columns; empty: none is.
[[nodiscard]] std::string too_wide(const std::string& text);

/// 2026-05-01 10:00 UTC by the program's clock.
[[nodiscard]] Ran run(const std::vector<std::string>& arguments, const std::string& input = {},
                      const std::map<std::string, std::string>& environment = {});

/// Whether the file is one that the program wrote itself, whole; true too when there is none.
[[nodiscard]] bool is_ours(const std::string& path);

}  // namespace loopledger::test
