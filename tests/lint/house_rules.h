// SPDX-License-Identifier: MIT
//
// The house rules that a compiler doesn't see, checked on source text: which room may include
// which, where third-party headers may stand, what pure rooms keep out, sizes, licence lines and
// paths of somebody's machine. The checks take text, so the tests can plant bad files.
#pragma once

#include <string>
#include <vector>

namespace loopledger::lint {

/// A file of the tree: its path from the top ("src/calc/curve.cpp") and its text.
struct SourceFile {
  std::string path;
  std::string text;
};

/// What is wrong with the file, as "path:line: what"; empty when all is well.
[[nodiscard]] std::vector<std::string> faults(const SourceFile& file);

}  // namespace loopledger::lint
