// SPDX-License-Identifier: MIT
//
// Makes the manual page when the program is built: the page that people wrote on standard input,
// the whole one on standard output.
#include <iostream>
#include <iterator>
#include <sstream>

#include "base/date.h"
#include "cli/command.h"
#include "cli/manual.h"

int main() {
  std::istringstream in;
  std::ostringstream out;
  loopledger::cli::Context context{in, out, out, [] { return loopledger::Moment{}; },
                                   [](const char*) -> std::optional<std::string> { return {}; }};
  const std::string page{std::istreambuf_iterator<char>(std::cin),
                         std::istreambuf_iterator<char>()};
  const std::string whole =
      loopledger::cli::manual(page, loopledger::cli::command_line(context).described());
  if (whole.empty()) {
    std::cerr << "the page has no line @COMMANDS@\n";
    return 1;
  }
  std::cout << whole;
  return std::cout.flush() ? 0 : 1;
}
