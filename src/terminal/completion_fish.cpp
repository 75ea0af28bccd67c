// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "terminal/completion.h"

namespace loopledger::terminal {
namespace {

using Kind = Completed::Kind;

constexpr const char* kFishHelpers =
    R"(# Completion of loopledger for fish, made from its own commands.

function __loopledger_motors
    set -l folder records
    set -q LOOPLEDGER_RECORDS; and set folder $LOOPLEDGER_RECORDS
    for file in $folder/*.toml
        string replace -r '.*/(.*)\.toml$' '$1' -- $file
    end
end

complete -c loopledger -f
)";

/// Within single quotes, on one line.
std::string fish_text(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\'' || c == '\\') {
      out += '\\';
    }
    out += c == '\n' ? ' ' : c;
  }
  return out;
}

std::string fish_value(const Completed& completed) {
  switch (completed.kind) {
    case Kind::words:
      return fmt::format(" -x -a '{}'", fmt::join(completed.words, " "));
    case Kind::files:
      return " -r -F";
    case Kind::folders:
      return " -x -a '(__fish_complete_directories)'";
    case Kind::motors:
      return " -x -a '(__loopledger_motors)'";
    case Kind::nothing:
      break;
  }
  return " -x";
}

/// Of a word by its place: there is nothing to require.
std::string fish_word(const Completed& completed) {
  switch (completed.kind) {
    case Kind::files:
      return " -F";
    case Kind::motors:
      return " -a '(__loopledger_motors)'";
    case Kind::words:
      return fmt::format(" -a '{}'", fmt::join(completed.words, " "));
    case Kind::folders:
    case Kind::nothing:
      break;
  }
  return {};
}

std::string fish_line(const std::string& when, const OptionHelp& option) {
  std::string out = fmt::format("complete -c loopledger -n '{}'", when);
  if (option.by_place) {
    const std::string word = fish_word(completed_by(option, option.name));
    return word.empty() ? std::string() : out + word + "\n";
  }
  for (const std::string& name : names_of(option)) {
    out += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
  }
  if (!option.value.empty()) {
    out += fish_value(completed_by(option, names_of(option).front()));
  }
  return fmt::format("{} -d '{}'\n", out, fish_text(option.help));
}

}  // namespace

std::string fish_completion(const std::vector<CommandHelp>& commands) {
  std::string out = kFishHelpers;
  for (const CommandHelp& command : commands) {
    const bool program = &command == &commands.front();
    const std::string when =
        program ? "__fish_use_subcommand" : "__fish_seen_subcommand_from " + command.name;
    out += '\n';
    if (!program) {
      out += fmt::format("complete -c loopledger -n __fish_use_subcommand -a {} -d '{}'\n",
                         command.name, fish_text(command.help));
    }
    for (const OptionHelp& option : command.options) {
      out += fish_line(when, option);
    }
  }
  return out;
}

}  // namespace loopledger::terminal
