// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <iostream>

#include "cli/command.h"
#include "cli/exit_code.h"

namespace {

loopledger::Moment now() {
  const auto since = std::chrono::system_clock::now().time_since_epoch();
  return {std::chrono::duration_cast<std::chrono::seconds>(since).count()};
}

std::optional<std::string> environment(const char* name) {
  const char* const value = std::getenv(name);
  return value == nullptr ? std::nullopt : std::optional<std::string>(value);
}

}  // namespace

int main(int argc, char** argv) {
  std::signal(SIGPIPE, SIG_IGN);  // a closed pipe is a write error, reported below
  loopledger::cli::Context context{
      std::cin, std::cout,   std::cerr,
      now,      environment, ::isatty(STDIN_FILENO) == 1 && ::isatty(STDOUT_FILENO) == 1};
  const int code = loopledger::cli::run(argc, argv, context);
  if (!std::cout.flush()) {
    std::cerr << "loopledger: standard output can't be written\n";
    return code == loopledger::cli::kDone ? loopledger::cli::kEnvironment : code;
  }
  return code;
}
