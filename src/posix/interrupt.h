// SPDX-License-Identifier: MIT
//
// Ctrl-C at the bench, a terminal that is closed, a polite kill: what is being stored is stored to
// its end, then the program says what it kept and ends as by that signal.
#pragma once

#include <array>
#include <csignal>
#include <string>

namespace loopledger::posix {

/// Takes SIGINT, SIGTERM and SIGHUP while it lives. There may be one at a time.
class Interrupt {
 public:
  Interrupt();
  Interrupt(const Interrupt&) = delete;
  Interrupt& operator=(const Interrupt&) = delete;
  ~Interrupt();

  /// From now on a signal prints `farewell` (a line or two) to standard error and ends the program;
  /// one that came while the program was busy does so at once.
  void idle(const std::string& farewell);
  /// From now on a signal waits for the next `idle`.
  void busy();

 private:
  std::array<struct sigaction, 3> before_{};
};

}  // namespace loopledger::posix
