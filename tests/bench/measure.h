// SPDX-License-Identifier: MIT
//
// What something costs: time on the clock, the processor's time and the largest memory, each in a
// process of its own, so that nothing is left over from what ran before. The machine does other
// things too: take the least of several, and measure the baseline in turns with what it is for.
#pragma once

#include <functional>
#include <string>
#include <vector>

namespace loopledger::bench {

struct Cost {
  double wall_ms = 0;
  double cpu_ms = 0;         ///< user and system
  double peak_mb = 0;        ///< of resident memory
  std::vector<double> told;  ///< by the work itself
};

/// Runs `work` in a child, which tells what it returns. Ends the program when the child fails.
/// With `fill` done in the child first: its time does not count, its memory does.
[[nodiscard]] Cost of_work(const std::function<std::vector<double>()>& work,
                           const std::function<void()>& fill = {});

/// Runs a program to its end, output to nowhere, `in` on its standard input. Ends this one when it
/// does not exit with `code`.
[[nodiscard]] Cost of_program(const std::vector<std::string>& words, const std::string& in = {},
                              int code = 0);

/// The least of each.
[[nodiscard]] Cost least(const Cost& a, const Cost& b);

/// A folder that goes when this does; in memory where the machine has such a place.
class MemoryFolder {
 public:
  MemoryFolder();
  ~MemoryFolder();
  MemoryFolder(const MemoryFolder&) = delete;
  MemoryFolder& operator=(const MemoryFolder&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

}  // namespace loopledger::bench
