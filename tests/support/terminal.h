// SPDX-License-Identifier: MIT
//
// The program behind a pseudo-terminal, as a person sits at it. LOOPLEDGER_PROGRAM names it.
#pragma once

#include <doctest/doctest.h>
#include <poll.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdlib>
#include <string>
#include <utility>
#include <vector>

#include "support/cli_run.h"

namespace loopledger::test {

class Terminal {
 public:
  /// @param environment what is set beside what the test itself has: "TERM=xterm"
  explicit Terminal(const std::vector<std::string>& words,
                    const std::vector<std::string>& environment = {}) {
    std::vector<char*> argv{const_cast<char*>("loopledger")};
    for (const std::string& word : words) {
      argv.push_back(const_cast<char*>(word.c_str()));
    }
    argv.push_back(nullptr);
    pid_ = ::forkpty(&fd_, nullptr, nullptr, nullptr);
    REQUIRE(pid_ >= 0);
    if (pid_ == 0) {
      for (const std::string& variable : environment) {
        ::putenv(const_cast<char*>(variable.c_str()));  // NOLINT(concurrency-mt-unsafe)
      }
      ::execv(LOOPLEDGER_PROGRAM, argv.data());
      ::_exit(127);
    }
  }
  Terminal(const Terminal&) = delete;
  Terminal& operator=(const Terminal&) = delete;
  ~Terminal() {
    ::close(fd_);
    if (pid_ > 0) {
      ::kill(pid_, SIGKILL);
      ::waitpid(pid_, nullptr, 0);
    }
  }
  void type(const std::string& text) const {
    CHECK(::write(fd_, text.data(), text.size()) == static_cast<ssize_t>(text.size()));
  }
  void send(int signal) const { ::kill(pid_, signal); }
  /// All that appears until `text` does, or the program ends, or for ten seconds.
  [[nodiscard]] std::string until(const std::string& text) const {
    std::string seen;
    std::array<char, 4096> buffer{};
    struct pollfd poll {
      fd_, POLLIN, 0
    };
    while (!has(seen, text) && ::poll(&poll, 1, 10000) > 0) {
      const ssize_t n = ::read(fd_, buffer.data(), buffer.size());
      if (n <= 0) {
        break;
      }
      seen.append(buffer.data(), static_cast<std::size_t>(n));
    }
    return seen;
  }
  /// All that appears until the program ends.
  [[nodiscard]] std::string all() const { return until(std::string("\0never", 6)); }
  /// The exit code, once it has ended; minus the signal's number when that ended it.
  int ended() {
    int status = 0;
    ::waitpid(std::exchange(pid_, -1), &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
  }

 private:
  int fd_ = -1;
  pid_t pid_ = -1;
};

}  // namespace loopledger::test
