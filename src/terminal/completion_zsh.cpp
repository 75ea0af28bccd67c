// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "terminal/completion.h"

namespace loopledger::terminal {
namespace {

using Kind = Completed::Kind;

constexpr const char* kZshHelpers = R"(#compdef loopledger
# Completion of loopledger for zsh, made from its own commands.

_loopledger_motors() {
  local -a motors
  motors=(${LOOPLEDGER_RECORDS:-records}/*.toml(N:t:r))
  compadd -M 'm:{a-z}={A-Z}' "$@" -a motors
}

_loopledger() {
)";

/// Within single quotes, as an explanation within brackets, on one line.
std::string zsh_text(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\'') {
      out += "'\\''";
    } else if (c == '[' || c == ']' || c == '\\') {
      out += std::string("\\") + c;
    } else {
      out += c == '\n' ? ' ' : c;
    }
  }
  return out;
}

/// What follows the explanation: ":PLAN:_files".
std::string zsh_value(const Completed& completed, const std::string& what) {
  const std::string words = fmt::format("{}", fmt::join(completed.words, " "));
  switch (completed.kind) {
    case Kind::words:
      return completed.list ? fmt::format(":{0}:_values -s , {0} {1}", what, words)
                            : fmt::format(":{}:({})", what, words);
    case Kind::files:
      return fmt::format(":{}:_files", what);
    case Kind::folders:
      return fmt::format(":{}:_files -/", what);
    case Kind::motors:
      return fmt::format(":{}:{}_loopledger_motors", what, completed.list ? "_sequence " : "");
    case Kind::nothing:
      break;
  }
  return fmt::format(":{}: ", what);
}

std::string zsh_option(const OptionHelp& option) {
  const std::vector<std::string> names = names_of(option);
  std::string out;
  for (const std::string& name : names) {
    const std::string apart = names.size() > 1 ? fmt::format("({})", fmt::join(names, " ")) : "";
    const bool takes = !option.value.empty();
    out += fmt::format(" \\\n        '{}{}{}[{}]{}'", apart, name, takes ? "=" : "",
                       zsh_text(option.help),
                       takes ? zsh_value(completed_by(option, name), "value") : "");
  }
  return out;
}

std::string zsh_words(const CommandHelp& command) {
  std::string out;
  int place = 0;
  for (const OptionHelp& option : command.options) {
    if (option.by_place) {
      ++place;
      const std::string which = option.many     ? "*"
                                : option.needed ? fmt::format("{}", place)
                                                : fmt::format("{}:", place);
      out += fmt::format(" \\\n        '{}{}'", which,
                         zsh_value(completed_by(option, option.name), option.name));
    }
  }
  return out;
}

std::string zsh_arguments(const CommandHelp& command) {
  std::string out = "_arguments";
  for (const OptionHelp& option : command.options) {
    out += option.by_place ? std::string() : zsh_option(option);
  }
  return out + zsh_words(command);
}

}  // namespace

std::string zsh_completion(const std::vector<CommandHelp>& commands) {
  std::string names;
  std::string each;
  for (const CommandHelp& command : commands) {
    if (&command != &commands.front()) {
      names += fmt::format("    '{}:{}'\n", command.name, zsh_text(command.help));
      each += fmt::format("    {})\n      {}\n      ;;\n", command.name, zsh_arguments(command));
    }
  }
  return fmt::format(
      "{}  local -a commands\n  commands=(\n{}  )\n"
      "  if (( CURRENT == 2 )) && [[ $words[2] != -* ]]; then\n"
      "    _describe 'command' commands\n    return\n  fi\n"
      "  if [[ $words[2] == -* ]]; then\n      {}\n    return\n  fi\n"
      "  shift words\n  (( CURRENT-- ))\n"
      "  case $words[1] in\n{}  esac\n}}\n\n_loopledger \"$@\"\n",
      kZshHelpers, names, zsh_arguments(commands.front()), each);
}

}  // namespace loopledger::terminal
