// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <istream>
#include <ostream>

#include "posix/native_world.h"
#include "posix/standard_streams.h"
#include "terminal/command.h"
#include "terminal/progress.h"

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
  namespace posix = loopledger::posix;
  namespace terminal = loopledger::terminal;
  std::signal(SIGPIPE, SIG_IGN);  // a closed pipe is a write error, reported below
  posix::fill_closed_descriptors();
  posix::InputBuffer in_buffer(STDIN_FILENO);
  posix::OutputBuffer out_buffer(STDOUT_FILENO);
  posix::OutputBuffer err_buffer(STDERR_FILENO);
  std::istream in(&in_buffer);
  std::ostream out(&out_buffer);
  std::ostream err(&err_buffer);
  in.tie(&out);
  err.tie(&out);
  err << std::unitbuf;
  posix::NativeWorld world(in, environment, now);
  if (posix::is_able(is_terminal(STDERR_FILENO), environment)) {
    world.get().progress = terminal::line_progress(err);
  }
  terminal::Context context{in, out, err, world.get()};
  context.terminal = is_terminal(STDIN_FILENO) && is_terminal(STDOUT_FILENO);
  context.paint = posix::paint_on(is_terminal(STDERR_FILENO), environment);
  const int code = terminal::run(argc, argv, context);
  out.flush();
  return posix::after_output(code, out_buffer, err_buffer, err, context.paint);
}
