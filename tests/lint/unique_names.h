// SPDX-License-Identifier: MIT
//
// Builds that take several files of a room as one need names that differ: what stands in the
// unnamed namespaces of one room may bear a name once. Read from the text as this house writes it,
// declarations at the start of a line.
#pragma once

#include <string>
#include <vector>

#include "lint/house_rules.h"

namespace loopledger::lint {

/// "src/calc/a.cpp and src/calc/b.cpp both have NAME" for each name that two files of a room have.
[[nodiscard]] std::vector<std::string> equal_names(const std::vector<SourceFile>& files);

}  // namespace loopledger::lint
