// SPDX-License-Identifier: MIT
//
// The bench through a real terminal: the program itself behind a pseudo-terminal, its prompts and
// answers as a person sees them.
#include <doctest/doctest.h>
#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <string>
#include <utility>

#include "support/cli_run.h"

using namespace loopledger;
using test::has;
using test::TempFolder;

namespace {

constexpr const char* kTerminalPlan = R"(format = 1
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
strips.tan = { samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]] }
[[motors]]
id = "TH"
count = 2
owner = "Anna"
rule = "club"
mass = "limit"
)";

/// The program on a pseudo-terminal.
class Terminal {
 public:
  explicit Terminal(const std::string& plan) {
    pid_ = ::forkpty(&fd_, nullptr, nullptr, nullptr);
    REQUIRE(pid_ >= 0);
    if (pid_ == 0) {
      ::execl(LOOPLEDGER_PROGRAM, "loopledger", "bench", plan.c_str(), nullptr);
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
  /// All that appears until `text` does, or for ten seconds.
  std::string until(const std::string& text) const {
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
  /// The exit code, once it has ended.
  int ended() {
    int status = 0;
    ::waitpid(std::exchange(pid_, -1), &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

 private:
  int fd_ = -1;
  pid_t pid_ = -1;
};

}  // namespace

TEST_CASE("on a terminal the bench says whose motor is next and what it should read") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kTerminalPlan);
  REQUIRE(test::run({"print", plan}).code == 0);
  Terminal terminal(plan);
  CHECK(has(terminal.until("> "), "TH-01 ANNA: washed, g (1.496–1.498)> "));
  terminal.type("washed 1.500\n");
  const std::string over = terminal.until("(1.496–1.498)> ");
  CHECK(has(over, "TH-01 ANNA: 2 mg over, snip 2 mm (washed 1.500 g)"));
  CHECK(has(over, "TH-01 ANNA: washed, g"));  // it stays with a motor that has to be trimmed
  terminal.type("washed 1.497\n");
  CHECK(has(terminal.until("TH-02 ANNA: washed, g (1.496–1.498)> "), "OK, 3 mg under"));
  terminal.type("\n");
  CHECK(has(terminal.until("> "), "TH-01 ANNA: loop as tied (366 mm)> "));
  // What was answered is on disk before the next prompt: pull the plug.
  CHECK(has(folder.read("records/TH-01.toml"), "1.497"));
  terminal.type("stop\n");
  CHECK(terminal.ended() == 0);
}

TEST_CASE("the end of input ends the bench, and it goes on where it stopped") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kTerminalPlan);
  REQUIRE(test::run({"print", plan}).code == 0);
  {
    Terminal terminal(plan);
    (void)terminal.until("> ");
    terminal.type("th1 washed 1.497\n");
    (void)terminal.until("> ");
    terminal.type("\x04");
    CHECK(terminal.ended() == 0);
  }
  Terminal again(plan);
  CHECK(has(again.until("> "), "TH-01 ANNA: loop as tied"));
}
