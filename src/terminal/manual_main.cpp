// SPDX-License-Identifier: MIT
//
// Makes the manual page when the program is built: the page that people wrote on standard input,
// the whole one on standard output.
#include <iostream>
#include <iterator>
#include <sstream>

#include "base/date.h"
#include "posix/native_world.h"
#include "terminal/command.h"
#include "terminal/manual.h"

int main() {
  namespace posix = loopledger::posix;
  namespace terminal = loopledger::terminal;
  std::istringstream in;
  std::ostringstream out;
  posix::NativeWorld world(
      in, [](const char*) -> std::optional<std::string> { return {}; },
      [] { return loopledger::Moment{}; });
  terminal::Context context{in, out, out, world.get()};
  const std::string page{std::istreambuf_iterator<char>(std::cin),
                         std::istreambuf_iterator<char>()};
  const std::string whole = terminal::manual(page, terminal::command_line(context).described());
  if (whole.empty()) {
    std::cerr << "the page has no line @COMMANDS@\n";
    return 1;
  }
  std::cout << whole;
  return std::cout.flush() ? 0 : 1;
}
