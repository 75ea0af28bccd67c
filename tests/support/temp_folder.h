// SPDX-License-Identifier: MIT
//
// A folder that goes when the test does.
#pragma once

#include <filesystem>
#include <string>

namespace loopledger::test {

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
