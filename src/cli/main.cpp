// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <istream>
#include <ostream>

#include "cli/command.h"
#include "cli/standard_streams.h"

namespace {

loopledger::Moment now() {
  const auto since = std::chrono::system_clock::now().time_since_epoch();
  return {std::chrono::duration_cast<std::chrono::seconds>(since).count()};
}

std::optional<std::string> environment(const char* name) {
  const char* const value = std::getenv(name);
  return value == nullptr ? std::nullopt : std::optional<std::string>(value);
}

bool is_terminal(int fd) { return ::isatty(fd) == 1; }

}  // namespace

int main(int argc, char** argv) {
  namespace cli = loopledger::cli;
  std::signal(SIGPIPE, SIG_IGN);  // a closed pipe is a write error, reported below
  cli::fill_closed_descriptors();
  cli::InputBuffer in_buffer(STDIN_FILENO);
  cli::OutputBuffer out_buffer(STDOUT_FILENO);
  cli::OutputBuffer err_buffer(STDERR_FILENO);
  std::istream in(&in_buffer);
  std::ostream out(&out_buffer);
  std::ostream err(&err_buffer);
  in.tie(&out);
  err.tie(&out);
  err << std::unitbuf;
  cli::Context context{in, out, err, now, environment};
  context.terminal = is_terminal(STDIN_FILENO) && is_terminal(STDOUT_FILENO);
  context.err_terminal = cli::is_able(is_terminal(STDERR_FILENO), environment);
  context.paint = cli::paint_on(is_terminal(STDERR_FILENO), environment);
  const int code = cli::run(argc, argv, context);
  out.flush();
  return cli::after_output(code, out_buffer, err_buffer, err, context.paint);
}
