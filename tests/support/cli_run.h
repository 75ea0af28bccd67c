// SPDX-License-Identifier: MIT
//
// The whole program run inside a test: arguments in; exit code, output and diagnostics out. The
// clock is fixed, the environment is what the test says.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "support/has.h"

namespace loopledger::test {

struct Ran {
  int code = 0;
  std::string out;
  std::string err;
};

/// The first line that is wider than a terminal of 100 columns; empty: none is.
[[nodiscard]] std::string too_wide(const std::string& text);

/// 2026-05-01 10:00 UTC by the program's clock.
[[nodiscard]] Ran run(const std::vector<std::string>& arguments, const std::string& input = {},
                      const std::map<std::string, std::string>& environment = {});

/// Whether the file is one that the program wrote itself, whole; true too when there is none.
[[nodiscard]] bool is_ours(const std::string& path);

/// A folder of its own for one test, removed at its end.
class TempFolder {
 public:
  TempFolder();
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;
  ~TempFolder();
  [[nodiscard]] std::string path(const std::string& name = {}) const;
  /// Writes a file into the folder and returns its path.
  std::string write(const std::string& name, const std::string& text) const;
  [[nodiscard]] std::string read(const std::string& name) const;
  [[nodiscard]] bool holds(const std::string& name) const;

 private:
  std::filesystem::path folder_;
};

}  // namespace loopledger::test
