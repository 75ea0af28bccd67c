// SPDX-License-Identifier: MIT
//
// What the build makes of the program's own commands, on standard output: without a word the manual
// page, from the page that people wrote on standard input; with "bash", "zsh" or "fish" that
// shell's completion.
#include <iostream>
#include <iterator>
#include <sstream>
#include <string>

#include "base/date.h"
#include "posix/native_world.h"
#include "terminal/command.h"
#include "terminal/completion.h"
#include "terminal/manual.h"

namespace {

namespace posix = loopledger::posix;
namespace terminal = loopledger::terminal;

std::vector<terminal::CommandHelp> commands_of_the_program() {
  std::istringstream in;
  std::ostringstream out;
  posix::NativeWorld world(
      in, [](const char*) -> std::optional<std::string> { return {}; },
      [] { return loopledger::Moment{}; });
  terminal::Context context{in, out, out, world.get()};
  return terminal::command_line(context).described();
}

std::string manual_page() {
  const std::string page{std::istreambuf_iterator<char>(std::cin),
                         std::istreambuf_iterator<char>()};
  return terminal::manual(page, commands_of_the_program());
}

std::string made_for(const std::string& what) {
  if (what == "bash") {
    return terminal::bash_completion(commands_of_the_program());
  }
  if (what == "zsh") {
    return terminal::zsh_completion(commands_of_the_program());
  }
  return what == "fish" ? terminal::fish_completion(commands_of_the_program()) : std::string();
}

}  // namespace

int main(int argc, char** argv) {
  const std::string whole = argc > 1 ? made_for(argv[1]) : manual_page();
  if (whole.empty()) {
    std::cerr << (argc > 1 ? "expected bash, zsh or fish\n" : "the page has no line @COMMANDS@\n");
    return 1;
  }
  std::cout << whole;
  return std::cout.flush() ? 0 : 1;
}
