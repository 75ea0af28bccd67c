// SPDX-License-Identifier: MIT
#include "support/cli_run.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

#include "base/text.h"
#include "pdf/own_mark.h"
#include "posix/native_world.h"
#include "terminal/command.h"

namespace loopledger::test {

Ran run(const std::vector<std::string>& arguments, const std::string& input,
        const std::map<std::string, std::string>& environment) {
  std::istringstream in(input);
  std::ostringstream out;
  std::ostringstream err;
  posix::NativeWorld world(
      in,
      [&environment](const char* name) -> std::optional<std::string> {
        const auto found = environment.find(name);
        return found == environment.end() ? std::nullopt : std::optional(found->second);
      },
      [] { return Moment{1777629600}; });
  terminal::Context context{in, out, err, world.get()};
  std::vector<const char*> argv{"loopledger"};
  for (const std::string& argument : arguments) {
    argv.push_back(argument.c_str());
  }
  Ran ran;
  ran.code = terminal::run(static_cast<int>(argv.size()), argv.data(), context);
  ran.out = out.str();
  ran.err = err.str();
  return ran;
}

std::string too_wide(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (terminal_width(line) > 100) {
      return line;
    }
  }
  return {};
}

bool is_ours(const std::string& path) {
  if (!std::filesystem::exists(path)) {
    return true;
  }
  std::ifstream in(path, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  return pdf::has_mark(std::string_view(bytes).substr(0, pdf::kMarkWithin), bytes.size());
}

}  // namespace loopledger::test
